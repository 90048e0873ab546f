import { expect, test } from 'vitest'
import { BrowserWorker, type WorkerLike } from '#lib/engine/browser-worker'

/** A worker that does what the test says, when it says so. */
class Puppet implements WorkerLike {
  onmessage: WorkerLike['onmessage'] = null
  onerror: WorkerLike['onerror'] = null
  readonly heard: { runId: number; ask: string }[] = []
  isEnded = false
  postMessage(message: unknown) {
    this.heard.push(message as { runId: number; ask: string })
  }
  terminate() {
    this.isEnded = true
  }
  say(kind: string, more: object = {}, back = 1) {
    const { runId } = this.heard[this.heard.length - back]
    this.onmessage?.({ data: { kind, runId, ...more } as never })
  }
}

function stage() {
  const puppets: Puppet[] = []
  const desk = new BrowserWorker<string, number>(() => {
    const puppet = new Puppet()
    puppets.push(puppet)
    return puppet
  })
  return { puppets, desk }
}

test('one question at a time, in line, on one worker', async () => {
  const { puppets, desk } = stage()
  const first = desk.ask('a')
  const second = desk.ask('b')
  expect(puppets[0].heard.map(({ ask }) => ask)).toEqual(['a'])
  puppets[0].say('done', { answer: 1 })
  expect(await first.outcome).toEqual({ kind: 'done', answer: 1 })
  expect(puppets[0].heard.map(({ ask }) => ask)).toEqual(['a', 'b'])
  puppets[0].say('refused', { sentence: 'No feet.' })
  expect(await second.outcome).toEqual({ kind: 'refused', sentence: 'No feet.' })
  expect(puppets).toHaveLength(1)
})

test('progress reaches its own question only', async () => {
  const { puppets, desk } = stage()
  const told: unknown[] = []
  const run = desk.ask('a', (done, of) => told.push([done, of]))
  puppets[0].say('progress', { done: 3, of: 9 })
  puppets[0].onmessage?.({ data: { kind: 'progress', runId: 77, done: 5 } as never })
  puppets[0].say('done', { answer: 2 })
  puppets[0].say('progress', { done: 9, of: 9 })
  await run.outcome
  expect(told).toEqual([[3, 9]])
})

test('a cancel ends the busy worker; the next question gets a new one, and the old one is not heard any more', async () => {
  const { puppets, desk } = stage()
  const slow = desk.ask('slow')
  const next = desk.ask('next')
  slow.cancel()
  expect(await slow.outcome).toEqual({ kind: 'cancelled' })
  expect(puppets[0].isEnded).toBe(true)
  expect(puppets[1].heard.map(({ ask }) => ask)).toEqual(['next'])
  puppets[0].onmessage?.({ data: { kind: 'done', runId: puppets[1].heard[0].runId, answer: 666 } as never })
  puppets[1].say('done', { answer: 3 })
  expect(await next.outcome).toEqual({ kind: 'done', answer: 3 })
  slow.cancel()
  expect(puppets[1].isEnded).toBe(false)
})

test('a question in line is dropped without a word to the worker', async () => {
  const { puppets, desk } = stage()
  const going = desk.ask('a')
  const waiting = desk.ask('b')
  waiting.cancel()
  expect(await waiting.outcome).toEqual({ kind: 'cancelled' })
  puppets[0].say('done', { answer: 1 })
  await going.outcome
  expect(puppets[0].heard).toHaveLength(1)
})

test('a worker that failed or fell over is thrown away', async () => {
  const { puppets, desk } = stage()
  const bug = desk.ask('bug')
  puppets[0].say('failed', { message: 'a bug' })
  expect(await bug.outcome).toEqual({ kind: 'failed', message: 'a bug' })
  expect(puppets[0].isEnded).toBe(true)
  const crash = desk.ask('crash')
  puppets[1].onerror?.({ message: 'gone' })
  expect(await crash.outcome).toEqual({ kind: 'failed', message: 'gone' })
  const again = desk.ask('again')
  puppets[2].say('done', { answer: 4 })
  expect(await again.outcome).toEqual({ kind: 'done', answer: 4 })
})

test('closing ends everything, and the desk can be used again', async () => {
  const { puppets, desk } = stage()
  const all = [desk.ask('a'), desk.ask('b')]
  desk.close()
  expect(await Promise.all(all.map(({ outcome }) => outcome))).toEqual([
    { kind: 'cancelled' },
    { kind: 'cancelled' },
  ])
  expect(puppets[0].isEnded).toBe(true)
  desk.ask('c')
  expect(puppets[1].heard[0].ask).toBe('c')
})

test('a worker that cannot be started is a failure, not a hanging page', async () => {
  const desk = new BrowserWorker<string, number>(() => {
    throw new Error('no workers here')
  })
  expect(await desk.ask('a').outcome).toEqual({ kind: 'failed', message: 'no workers here' })
})
