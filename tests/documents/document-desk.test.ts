// The desk with real threads: documents made off this thread, and threads that fail, die or never answer.
import { afterEach, beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { DocumentDesk } from '#lib/documents/document-desk'
import type { DocumentOrder } from '#lib/documents/order'
import { threadFile, threadOf } from '../engine/threads'
import { readPdf } from './pdf/read-pdf'

let file: string
beforeAll(async () => {
  file = await threadFile('lib/documents/document-thread.ts')
})

const desks: DocumentDesk[] = []
const deskOf = (of: string): DocumentDesk => {
  const desk = new DocumentDesk(of)
  desks.push(desk)
  return desk
}
afterEach(async () => {
  await Promise.all(desks.splice(0).map((desk) => desk.close()))
})

function order(over: Partial<Extract<DocumentOrder, { kind: 'sheet' }>> = {}): DocumentOrder {
  const built = designs.find(({ id }) => id === 'wallShelf')!.build({})
  if (!built.ok) throw new Error('wallShelf')
  return {
    kind: 'sheet',
    sheet: 'all',
    model: built.value,
    paper: 'a4',
    units: 'mm',
    titleBlock: { design: 'Wall shelf', build: 'Shelf', shop: 'Shop', date: '2026-05-06' },
    madeAt: new Date('2026-05-06T09:00:00Z'),
    ...over,
  }
}

const broken = (code: string): string =>
  threadOf(`import { parentPort } from 'node:worker_threads'\n${code}\n`)

describe('the document desk', () => {
  it('makes documents in turn, in another thread', async () => {
    const desk = deskOf(file)
    const [sheet, all, none] = await Promise.all([
      desk.make(order()),
      desk.make({ ...order(), kind: 'drawings' }),
      desk.make(order({ sheet: 'part-1', scale: 1 })),
    ])
    if (sheet.status !== 'made' || all.status !== 'made') throw new Error('not made')
    expect(await readPdf(sheet.bytes)).toHaveLength(1)
    expect((await readPdf(all.bytes)).length).toBeGreaterThan(5)
    expect(none).toMatchObject({ status: 'refused', message: expect.stringContaining('largest that fits') })
  })

  it('a thread that dies fails its own order alone; the next order begins another', async () => {
    const desk = deskOf(broken(`parentPort.on('message', () => process.exit(3))`))
    await expect(desk.make(order())).rejects.toThrow('ended with 3')
    await expect(desk.make(order())).rejects.toThrow('ended with 3')
  })

  it('a bug in the thread is told', async () => {
    const desk = deskOf(
      await broken(
        `parentPort.on('message', ({ runId }) => parentPort.postMessage({ runId, kind: 'failed', message: 'no wood' }))`,
      ),
    )
    await expect(desk.make(order())).rejects.toThrow('no wood')
  })

  it('an order that is given up is dropped, in line or at work; the next is made all the same', async () => {
    const desk = deskOf(file)
    const [now, later, gone] = [new AbortController(), new AbortController(), new AbortController()]
    const going = desk.make({ ...order(), kind: 'drawings' }, now.signal)
    const waiting = desk.make(order(), later.signal)
    const last = desk.make(order())
    later.abort(new Error('changed my mind'))
    now.abort(new Error('gone away'))
    await expect(going).rejects.toThrow('gone away')
    await expect(waiting).rejects.toThrow('changed my mind')
    expect(await last).toMatchObject({ status: 'made' })
    gone.abort(new Error('before it began'))
    await expect(desk.make(order(), gone.signal)).rejects.toThrow('before it began')
  })

  it('orders beyond what may wait are refused in words', async () => {
    const desk = deskOf(broken(`parentPort.on('message', () => {})`))
    const waiting = Array.from({ length: 21 }, () => desk.make(order()).catch(() => undefined))
    expect(await desk.make(order())).toMatchObject({ status: 'refused' })
    expect(waiting).toHaveLength(21)
  })
})
