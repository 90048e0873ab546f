/**
 * A worker thread that makes documents, one at a time: PDF of many sheets takes too long for the thread that answers
 * requests. It is sent orders and sends bytes. Tests: tests/documents/document-desk.test.ts
 */
import { parentPort } from 'node:worker_threads'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { makeDocument } from './make-document'
import type { DocumentOrder, MadeDocument } from './order'

export interface ToDocumentThread {
  readonly runId: number
  readonly order: DocumentOrder
}
export type FromDocumentThread = { readonly runId: number } & (
  | { readonly kind: 'done'; readonly made: MadeDocument }
  | { readonly kind: 'failed'; readonly message: string }
)

if (!parentPort) throw new Error('document-thread runs as a worker thread')
const port = parentPort

port.on('message', async ({ runId, order }: ToDocumentThread) => {
  try {
    const made = await makeDocument(order, await loadSolidKernel())
    port.postMessage({ runId, kind: 'done', made } satisfies FromDocumentThread)
  } catch (error) {
    const message = error instanceof Error ? (error.stack ?? error.message) : String(error)
    port.postMessage({ runId, kind: 'failed', message } satisfies FromDocumentThread)
  }
})
