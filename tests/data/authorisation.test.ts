// Every action and query of lib/data as nobody, in the wrong role and as another member. Finds them by itself: a new
// one without its case fails here by name. How to add a case: authorisation/case.ts.
import { beforeAll, describe, expect, test } from 'vitest'
import type { Action } from '#lib/data/action'
import type { Actor } from '#lib/shop/actor'
import { member, shop, station } from './arrange'
import type { AuthorisationCase, AuthorisationCases } from './authorisation/case'

type AnyAction = Action<unknown, unknown>

/** What actions are made of, not actions. */
const MADE_OF = ['action', 'client', 'transaction']

const modules = import.meta.glob<Record<string, unknown>>('../../lib/data/*.ts', { eager: true })
const slices = import.meta.glob<{ cases?: AuthorisationCases }>('./authorisation/*.ts', { eager: true })

const roomOf = (file: string) => file.replace(/^.*\/(.*)\.ts$/, '$1')

/** Named `room.export`: `sign-in.signIn`. */
const exported = Object.entries(modules)
  .filter(([file]) => !MADE_OF.includes(roomOf(file)))
  .flatMap(([file, all]) =>
    Object.entries(all).map(([name, value]) => ({ name: `${roomOf(file)}.${name}`, value })),
  )
  .filter(({ value }) => typeof value === 'function')

const isAction = (value: unknown): value is AnyAction =>
  typeof value === 'function' && 'kind' in value && 'audience' in value && 'input' in value

const actions = exported.flatMap(({ name, value }) => (isAction(value) ? [{ name, act: value }] : []))
const registered = Object.values(slices).flatMap((slice) => Object.entries(slice.cases ?? {}))
const cases = new Map<string, AuthorisationCase>(registered)
const needsCase = (act: AnyAction) => !act.shared && act.audience !== 'admin'

const here: Record<'member' | 'keeper' | 'otherKeeper' | 'admin', Actor> = {} as never

beforeAll(async () => {
  await shop()
  here.member = await member('member', 'Stranger')
  here.keeper = await member('keeper', 'Keeper')
  here.otherKeeper = await member('keeper', 'Other keeper')
  here.admin = await member('admin', 'Admin')
  await station(here.otherKeeper)
})

describe('the list of actions', () => {
  test('there are some', () => expect(actions.length).toBeGreaterThan(10))

  test('every function that lib/data exports is an action or a query', () => {
    expect(exported.filter(({ value }) => !isAction(value)).map(({ name }) => name)).toEqual([])
  })

  test('no action has two cases', () => {
    expect(registered.map(([name]) => name).filter((name, i, all) => all.indexOf(name) !== i)).toEqual([])
  })

  test('every one that is neither shared nor for admins only has its case of another member', () => {
    expect(actions.filter(({ name, act }) => needsCase(act) && !cases.has(name)).map((a) => a.name)).toEqual(
      [],
    )
  })

  test('every case belongs to an action; only one for anyone may be called open', () => {
    const byName = new Map(actions.map((a) => [a.name, a.act]))
    expect([...cases.keys()].filter((name) => !byName.has(name))).toEqual([])
    const open = [...cases].filter(([, c]) => 'open' in c).map(([name]) => name)
    expect(open.filter((name) => byName.get(name)?.audience !== 'anyone')).toEqual([])
  })
})

describe.each(actions)('$name', ({ name, act }) => {
  test('as nobody', async () => {
    if (act.audience === 'anyone') return
    expect(await act(null, {})).toEqual({ ok: false, error: { code: 'notSignedIn' } })
  })

  test('in the wrong role', async () => {
    if (act.audience === 'keeper' || act.audience === 'admin')
      expect(await act(here.member, {})).toEqual({ ok: false, error: { code: 'notAllowed' } })
    if (act.audience === 'admin')
      expect(await act(here.keeper, {})).toEqual({ ok: false, error: { code: 'notAllowed' } })
  })

  test('as another member', async () => {
    const entry = cases.get(name)
    if (!entry || 'open' in entry) return
    const arranged = 'refused' in entry ? await entry.refused() : await entry.ownOnly()
    const stranger = arranged.stranger ?? (act.audience === 'keeper' ? here.otherKeeper : here.member)
    expect(act.input.safeParse(arranged.input).error?.issues, 'the input of the case is well formed').toBe(
      undefined,
    )
    const before = await arranged.state()
    const result = await act(stranger, arranged.input)
    expect(await arranged.state()).toEqual(before)
    if ('refused' in entry) {
      expect(result.ok, `${name} let a stranger through`).toBe(false)
      if (!result.ok) expect(['notAllowed', 'notFound']).toContain(result.error.code)
    } else if (result.ok && 'check' in arranged) (arranged.check as (value: unknown) => void)(result.value)
  })
})
