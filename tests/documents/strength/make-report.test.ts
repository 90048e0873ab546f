// In the document thread, as a request has it made.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { sideTableRecipe } from '#lib/core/design/designs/side-table/side-table-recipe'
import type { ParameterValues } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { DocumentDesk } from '#lib/documents/document-desk'
import type { StrengthOrder } from '#lib/documents/strength/make-report'
import { ownDesign } from '#lib/engine/own-design'
import { threadFile } from '../../engine/threads'
import { readPdf } from '../pdf/read-pdf'
import { FACTS, JUDGED_FOR } from './printed'

let desk: DocumentDesk
beforeAll(async () => {
  desk = new DocumentDesk(await threadFile('lib/documents/document-thread.ts'))
})
afterAll(() => desk.close())

function order(designId: string, parameters: ParameterValues = {}): StrengthOrder {
  const built = designById(designId)!.build(parameters)
  if (!built.ok) throw new Error(designId)
  return { kind: 'strength', model: built.value, options: {}, judgedFor: JUDGED_FOR, ...FACTS }
}

test('the asker’s thread stays free while it is made', async () => {
  const made = desk.make(order('counterSeat', { species: 'redOak' }))
  let turns = 0
  const ticking = setInterval(() => turns++, 5)
  const document = await made
  clearInterval(ticking)
  if (document.status !== 'made') throw new Error(document.message)
  const sheets = await readPdf(document.bytes)
  expect(sheets.length).toBeGreaterThan(2)
  const text = sheets.flatMap(({ texts }) => texts).join(' ')
  expect(text).toContain('Of 2000 such pieces')
  expect(text).toContain('Once the glue has let go')
  expect(turns).toBeGreaterThan(5)
}, 60_000)

test('a design of a member’s own has its ways to join compared too', async () => {
  const [angle, ...others] = sideTableRecipe.joints
  const joint = {
    id: 'jointOfLegs',
    label: 'Legs',
    group: 'Joints',
    unit: 'choice',
    default: 'glued',
    options: [
      { value: 'glued', label: 'glued and screwed' },
      { value: 'screwed', label: 'screwed alone' },
    ],
    help: 'How the two boards of a leg are held.',
  } as const
  const recipe: Recipe = {
    ...sideTableRecipe,
    parameters: [...sideTableRecipe.parameters, joint],
    joints: [
      { ...angle, when: "jointOfLegs == 'glued'" },
      { ...angle, id: 'angleOfScrews', glued: false, when: "jointOfLegs == 'screwed'" },
      ...others,
    ],
  }
  const own = ownDesign('own:6f1d2a34-0000-4000-8000-000000000001@1', recipe)
  const built = own?.build({ species: 'redOak' })
  if (!built?.ok) throw new Error('does not build')
  const made = await desk.make({ ...order('sideTable'), model: built.value, recipe })
  if (made.status !== 'made') throw new Error(made.message)
  const text = (await readPdf(made.bytes)).flatMap(({ texts }) => texts).join(' ')
  expect(text).toContain('Ways to join it')
  expect(text).toMatch(/«(glued and screwed|screwed alone)» holds/)
}, 60_000)

test('what cannot be judged is refused in a sentence, without a number', async () => {
  const given = order('sideTable')
  const joints = given.model.joints.map((joint) => ({ ...joint, glued: false, screws: [] }))
  const loose = await desk.make({ ...given, model: { ...given.model, joints } })
  expect(loose).toMatchObject({ status: 'refused', message: expect.stringMatching(/no screws and no glue/) })
  expect(JSON.stringify(loose)).not.toMatch(/\d/)
}, 60_000)

test('a report that nobody waits for any more is given up at once', async () => {
  const away = new AbortController()
  const made = desk.make(order('trestleTable'), away.signal)
  setTimeout(() => away.abort(new Error('gone')), 50)
  const start = performance.now()
  await expect(made).rejects.toThrow('gone')
  expect(performance.now() - start).toBeLessThan(2000)
}, 60_000)
