/** What was sent, or null as soon as it is longer than `maxBytes`: no more than that is ever held. */
export async function boundedBody(request: Request, maxBytes: number): Promise<Uint8Array | null> {
  if (Number(request.headers.get('content-length') ?? 0) > maxBytes || !request.body) return null
  const pieces: Uint8Array[] = []
  let length = 0
  for await (const piece of request.body as unknown as AsyncIterable<Uint8Array>) {
    length += piece.length
    if (length > maxBytes) return null
    pieces.push(piece)
  }
  return new Uint8Array(Buffer.concat(pieces))
}
