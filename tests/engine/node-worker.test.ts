import { expect, test } from 'vitest'
import { nodeDesk } from '#lib/engine/node-worker'
import { threadOf } from './threads'

const HEAD =
  "import { parentPort } from 'node:worker_threads'\nparentPort.on('message', ({ runId, ask }) => {\n"
const desk = (body: string) => nodeDesk<string, string>(threadOf(`${HEAD}${body}\n})`))

test('a thread answers, tells how far it is, and is asked again', async () => {
  const own = desk(
    "parentPort.postMessage({ kind: 'progress', runId, done: 1, of: 2 }); parentPort.postMessage({ kind: 'done', runId, answer: ask + '!' })",
  )
  const told: number[] = []
  expect(await own.ask('a', (done) => told.push(done)).outcome).toEqual({ kind: 'done', answer: 'a!' })
  expect(await own.ask('b').outcome).toEqual({ kind: 'done', answer: 'b!' })
  expect(told).toEqual([1])
  own.close()
})

test('one that throws, or ends in the middle, has failed; the next question gets a new one', async () => {
  const own = desk(
    "if (ask === 'throw') throw new Error('no'); if (ask === 'end') process.exit(3); parentPort.postMessage({ kind: 'done', runId, answer: ask })",
  )
  expect(await own.ask('throw').outcome).toMatchObject({ kind: 'failed' })
  expect(await own.ask('end').outcome).toMatchObject({ kind: 'failed' })
  expect(await own.ask('well').outcome).toEqual({ kind: 'done', answer: 'well' })
  own.close()
})

test('one that never answers is ended by a cancel', async () => {
  const own = desk(
    "if (ask === 'loop') for (;;); parentPort.postMessage({ kind: 'done', runId, answer: ask })",
  )
  const run = own.ask('loop')
  setTimeout(run.cancel, 50)
  expect(await run.outcome).toEqual({ kind: 'cancelled' })
  expect(await own.ask('next').outcome).toEqual({ kind: 'done', answer: 'next' })
  own.close()
})
