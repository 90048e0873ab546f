import NextLink from 'next/link'
import type { ComponentProps } from 'react'

/**
 * A link within the shop, followed without loading the page anew. Nothing is fetched before it is followed: every page
 * is made for who asks, so that what is fetched ahead is thrown away, and it was most of the server's work.
 */
export default function Link(props: ComponentProps<typeof NextLink>) {
  return <NextLink prefetch={false} {...props} />
}
