import { LiveStream } from './live-stream'

/** Keeps a page of the server up to date: it is made again when one of its topics changes anywhere in the shop. */
export function Live({ topics }: { readonly topics: readonly string[] }) {
  return <LiveStream wanted={topics.join(',')} since={Date.now()} />
}
