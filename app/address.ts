import { headers } from 'next/headers'

/**
 * Where the caller reaches this shop, `https://shop.example.org`, for links to be taken elsewhere. As the caller
 * named it, since a phone in the shop may know the machine by another name than it knows itself.
 */
export async function baseUrl(): Promise<string> {
  const given = await headers()
  const host = given.get('x-forwarded-host') ?? given.get('host') ?? 'localhost'
  const protocol = given.get('x-forwarded-proto')?.split(',')[0] ?? 'http'
  return `${protocol}://${host}`
}
