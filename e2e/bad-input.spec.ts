/**
 * Bad input for every form: letters in numbers, negative and absurd sizes, damage off the board, a design that cannot
 * exist. Each time: a sentence beside the field, which is marked as wrong and has the focus; what was typed is kept;
 * nothing is stored. FORMS lists every form that one can type into; the last test finds one that is missing here.
 * The form that starts a shop is in empty-shop.spec.ts, since only an empty shop has it.
 */
import fs from 'node:fs'
import path from 'node:path'
import { type BrowserContext, expect, type Locator, type Page, test } from '@playwright/test'
import { ask } from './support/database'
import { expectAccessible } from './support/looks'
import { asMember, invite } from './support/people'
import { buildWith, logBoards, planCutting } from './support/work'

/** Places that the forms stand on, made once. */
const at = { teardown: '', board: '', build: '', record: '', station: '', join: '', variant: '' }

/** What is typed where, and what is said beside it; null where nothing is wrong with it. */
type Typed = readonly [label: string, typed: string, says: RegExp | null]

interface BadForm {
  /** Its accessible name. */
  readonly form: string
  /** Its source below app/. */
  readonly source: string
  readonly path: () => string
  /** Opens what hides it. */
  readonly open?: (page: Page) => Promise<void>
  readonly button: string | RegExp
  /** Each is typed and sent at once; its fields in the order of the form. */
  readonly tries: readonly (readonly Typed[])[]
  /** Whose rows must not change. */
  readonly table: string
  /** Asked by its address: the answer is a new page, whose focus is its own. */
  readonly isPlain?: boolean
  /** Nobody is signed in. */
  readonly outside?: boolean
}

const NOT_A_LENGTH = /This is not a length\. Write it like 1613/
const NEGATIVE = /A length cannot be negative/
const TOO_LONG = /more than 100 m|the most is/
const unfold = (summary: string | RegExp) => (page: Page) => page.getByText(summary).click()

const FORMS: readonly BadForm[] = [
  {
    form: 'Sign in',
    source: 'sign-in/sign-in-form.tsx',
    path: () => '/sign-in',
    button: 'Sign in',
    outside: true,
    table: 'SignInAttempt',
    tries: [
      [
        ['E-mail', '', /Type your e-mail/],
        ['Password', '', /Type your password/],
      ],
    ],
  },
  {
    form: 'Join',
    source: 'join/[token]/join-form.tsx',
    path: () => at.join,
    button: 'Join the shop',
    outside: true,
    table: 'Member',
    tries: [
      [
        ['Your name', '  ', /Type a name/],
        ['A password', 'short', /at least 10 characters/],
      ],
      [
        ['Your name', 'Guest', null],
        ['A password', 'passwordpassword', /Too many people use that one/],
      ],
    ],
  },
  {
    form: 'You',
    source: 'account/page.tsx',
    path: () => '/account',
    button: 'Save',
    table: 'Member',
    tries: [[['Name', '  ', /Type a name/]], [['Name', 'n'.repeat(90), /At most 80 characters/]]],
  },
  {
    form: 'Change password',
    source: 'account/password-form.tsx',
    path: () => '/account',
    button: 'Change password',
    table: 'Member',
    tries: [
      [
        ['Current password', '', /Type your current password/],
        ['New password', 'short', /at least 10 characters/],
      ],
    ],
  },
  {
    form: 'Invite someone',
    source: 'members/page.tsx',
    path: () => '/members',
    button: 'Make the link',
    table: 'Invite',
    tries: [
      [['Their e-mail', 'not an address', /Type an e-mail address, like name@example\.org/]],
      [['Their e-mail', 'noor@gantry.example', /They are a member already/]],
    ],
  },
  {
    form: 'Shop',
    source: 'shop/page.tsx',
    path: () => '/shop',
    button: 'Save',
    table: 'Shop',
    tries: [
      [
        ['Name', ' ', /Enter the name of the shop/],
        ['A hold lasts', 'a week', /as a whole number/],
        ['Added to each length', 'plenty', NOT_A_LENGTH],
        ['Trimmed off an end', '-5', NEGATIVE],
      ],
      [
        ['A hold lasts', '0', /from 1 to 2160/],
        ['Skimmed off a face', '500', /the most is 10 mm/],
        ['Added to each width', '9999999999', TOO_LONG],
      ],
      [['Currency', 'E1', /Three letters, like EUR/]],
    ],
  },
  {
    form: 'The piece',
    source: 'teardowns/new/page.tsx',
    path: () => '/teardowns/new',
    button: 'Go on to its boards',
    table: 'Teardown',
    tries: [[['What it was', '   ', /Say what the piece was/]]],
  },
  {
    form: 'Change the piece',
    source: 'teardowns/[id]/page.tsx',
    path: () => at.teardown,
    open: unfold('Change what is said of it'),
    button: 'Save',
    table: 'Teardown',
    tries: [[['What it was', '  ', /Say what the piece was/]]],
  },
  {
    form: 'Log a board',
    source: 'teardowns/[id]/log-form.tsx',
    path: () => at.teardown,
    open: unfold('Warp, place, treated, notes'),
    button: 'Log it',
    table: 'Board',
    tries: [
      [
        ['Length', 'long', NOT_A_LENGTH],
        ['Width', '-90', NEGATIVE],
        ['Thickness', '999999999', TOO_LONG],
        ['How many alike', 'two', /as a whole number/],
      ],
      [
        ['Length', '', /Enter the length/],
        ['Width', '2', /the least is 5 mm/],
        ['Thickness', '1/5', /not one on a tape/],
        ['How many alike', '400', /from 1 to 20/],
      ],
      [
        ['Length', '99999', /the most is 12000 mm|the most is 12 ?000 mm/],
        ['Width', '12 mm 3"', /Use one unit|not a length/],
      ],
      [
        ['Length', '1000', null],
        ['Width', '100', null],
        ['Thickness', '20', null],
        ['Cup', 'a bit', NOT_A_LENGTH],
        ['Twist', '-3', NEGATIVE],
      ],
    ],
  },
  {
    form: 'Change the board',
    source: 'boards/[id]/change-board.tsx',
    path: () => at.board,
    open: unfold('Change measures, finish, terms or place'),
    button: 'Save the board',
    table: 'Board',
    tries: [
      [
        ['Length', 'as before', NOT_A_LENGTH],
        ['Thickness', '-20', NEGATIVE],
        ['Bow', '99999999999', TOO_LONG],
      ],
      [
        ['Width', '0', /the least is 5 mm/],
        ['Thickness', '4 m', /the most is 300 mm/],
      ],
      [['Cup', '120', /too much for a board of this size/]],
    ],
  },
  {
    form: 'Add a mark',
    source: 'ui/board-face-mark-form.tsx',
    path: () => at.board,
    open: unfold('Add a mark by typing its figures'),
    button: 'Add this mark',
    table: 'Defect',
    tries: [
      [
        ['Along the board, from', 'the end', NOT_A_LENGTH],
        ['Across it, from', '-4', NEGATIVE],
        ['How long', '', /Enter/],
        ['How wide', 'wide', NOT_A_LENGTH],
      ],
      [
        ['Along the board, from', '50000', /off the board: its length is 1620 mm/],
        ['Across it, from', '0', null],
        ['How long', '10', null],
        ['How wide', '5000', /off the board: its width is 152 mm/],
      ],
      [
        ['Along the board, from', '1600', null],
        ['Across it, from', '0', null],
        ['How long', '30', /The defect ends at 1630 mm, off the board/],
        ['How wide', '0', /more than 0/],
      ],
    ],
  },
  {
    form: 'Start a build',
    source: 'builds/new/page.tsx',
    path: () => '/builds/new',
    button: 'Start the build',
    table: 'Build',
    tries: [[['What you call it', '   ', /Give the build a name/]]],
  },
  {
    form: 'Name and notes',
    source: 'builds/[id]/ending.tsx',
    path: () => at.build,
    open: unfold('Change name or notes'),
    button: 'Keep',
    table: 'Build',
    tries: [[['Name', '   ', /Give the build a name/]]],
  },
  {
    form: 'Comment',
    source: 'builds/[id]/comments.tsx',
    path: () => at.build,
    button: 'Say it',
    table: 'Comment',
    tries: [[['Your comment', '   ', /Write something first/]]],
  },
  {
    form: 'Make another variant',
    source: 'builds/[id]/variants/make-form.tsx',
    path: () => `${at.build}/variants`,
    button: 'Make it',
    table: 'Variant',
    tries: [[['What you call it', '   ', /Give the variant a name/]]],
  },
  {
    form: 'Name of First',
    source: 'builds/[id]/variants/variant-doings.tsx',
    path: () => `${at.build}/variants`,
    open: (page) =>
      page
        .locator('summary', { hasText: /^Name$/ })
        .first()
        .click(),
    button: 'Rename',
    table: 'Variant',
    tries: [[['Name', '   ', /Give the variant a name/]]],
  },
  {
    form: 'Comment',
    source: 'builds/[id]/variants/[variantId]/say-form.tsx',
    path: () => at.variant,
    button: 'Say it',
    table: 'Comment',
    tries: [[['Your comment', '   ', /Write something first/]]],
  },
  {
    form: 'Copy Storage crate',
    source: 'designs/copy-form.tsx',
    path: () => '/designs',
    open: unfold('Copy it: Storage crate'),
    button: 'Copy and change it',
    table: 'OwnDesign',
    tries: [[['What your copy is called', '   ', /Give the design a name/]]],
  },
  {
    form: 'Note something that has to dry',
    source: 'builds/[id]/wait-form.tsx',
    path: () => at.build,
    button: 'Note it',
    table: 'Wait',
    tries: [
      [
        ['Hours', 'overnight', /as a number/],
        ['Began how long ago', 'just now', /as a whole number/],
      ],
      [
        ['Hours', '-2', /from 0\.25 to 1440/],
        ['Began how long ago', '-10', /from 0 to/],
      ],
      [['Hours', '100000', /from 0\.25 to 1440/]],
    ],
  },
  {
    form: 'Numbers of the design',
    source: 'builds/[id]/design/design-sheet.tsx',
    path: () => `${at.build}/design`,
    open: async (page) => {
      const closed = page.locator('form details:not([open]) > summary')
      while ((await closed.count()) > 0) await closed.first().click()
    },
    button: /^(Save|Keep these numbers)$/,
    table: 'Variant',
    tries: [
      [
        ['Counter height', 'high', NOT_A_LENGTH],
        ['Seats abreast', '2.5', /a whole number/],
        ['Leg width', '-45', NEGATIVE],
      ],
      [
        ['Counter height', '99999', /the most is 1250 mm/],
        ['Seats abreast', 'three', /is not a number/],
        ['Rake', '40', /the most is 25°/],
      ],
      // Nothing is left between the counter and the floor for a seat.
      [
        ['Counter height', '700', null],
        ['Knee clearance', '600', /The seat would be 62 mm high.*It needs at least/],
      ],
      // Legs so wide that their tops cross; so raked that they nearly do; so raked that the feet leave their place.
      [
        ['Seat depth', '250', null],
        [
          'Leg width',
          '120',
          /The tops of the two legs of a frame would cross; the frame is 216 mm deep there/,
        ],
      ],
      [
        ['Floor for the feet', '1500', null],
        ['Seat depth', '250', null],
        // 216 mm at the top less two legs of 85 mm / cos 25°: 28.43 mm.
        ['Rake', '25', /would come within 28\.43 mm of each other/],
        ['Leg width', '85', null],
      ],
      [['Rake', '25', /The feet would stand .* apart, front to back; the place allows 600 mm/]],
      // A notch that leaves less than a third of the leg.
      [
        [
          'Support and rail thickness',
          '30',
          /The notches would leave 8 mm of a leg 38 mm thick, less than a third/,
        ],
      ],
    ],
  },
  {
    form: 'Record the cutting',
    source: 'builds/[id]/cutting/[boardId]/record-form.tsx',
    path: () => at.record,
    open: async (page) => {
      await page.getByText('Another rest worth keeping').click()
      await page.getByLabel('Keep another rest').check()
    },
    button: 'Record the cutting',
    table: 'BoardCut',
    tries: [
      [
        ['Length', 'a rest', NOT_A_LENGTH],
        ['Width', '-8', NEGATIVE],
      ],
      [
        ['Length', '11000', /The board was only 1620 mm/],
        ['Width', '1', /An offcut is at least 5 mm/],
      ],
      [
        ['Length', '99999', /No board is so large/],
        ['Width', '50', null],
      ],
    ],
  },
  {
    form: 'Add a station',
    source: 'stations/new/page.tsx',
    path: () => '/stations/new',
    button: 'Add the station',
    table: 'Station',
    tries: [
      [
        ['Name', ' ', /Enter the name/],
        ['Kerf', 'thin', NOT_A_LENGTH],
        ['Widest rip', '-600', NEGATIVE],
        ['Deepest pass', '999', /the most is 200 mm/],
      ],
    ],
  },
  {
    form: 'Change the station',
    source: 'stations/[id]/edit/page.tsx',
    path: () => `${at.station}/edit`,
    button: 'Save',
    table: 'Station',
    tries: [
      [
        ['Kerf', '0', /the least is/],
        ['Shortest safe piece', 'short', NOT_A_LENGTH],
      ],
      [['Name', 'Table saw', /There is a station of that name/]],
    ],
  },
  {
    form: 'Book this station',
    source: 'stations/[id]/book-form.tsx',
    path: () => at.station,
    button: /^(Book it|Ask )/,
    table: 'Booking',
    tries: [[['Day', '', /Choose a day/]]],
  },
  {
    form: 'Find boards',
    source: 'pool/filter-form.tsx',
    path: () => '/pool',
    open: unfold('By owner, terms, number or state'),
    button: 'Find',
    isPlain: true,
    table: 'Board',
    tries: [
      [
        ['Length at least', 'long', NOT_A_LENGTH],
        ['Width at least', '-1', NEGATIVE],
        ['Number on it', 'seven', /as a whole number/],
      ],
    ],
  },
]

/** Forms with nothing to type: buttons, lists to choose from, a note that may be left out. */
const NOTHING_TO_TYPE = [
  'bookings/decide.tsx',
  'builds/[id]/cutting/ask-form.tsx',
  'builds/[id]/cutting/compare/page.tsx',
  'builds/[id]/design/newer-version.tsx',
  'builds/[id]/drawings/picker.tsx',
  'designs/[id]/share-form.tsx',
  'members/link-form.tsx',
  'members/member-row.tsx',
  'stations/[id]/keeper-panel.tsx',
  'yes-no.tsx',
]
const ELSEWHERE = [
  'start/start-form.tsx',
  // cutting-ways, hardware, own-design
  'builds/[id]/cutting/together/ask-form.tsx',
  'designs/[id]/editor.tsx',
  'builds/[id]/hardware.tsx',
  'hardware/log-form.tsx',
  'hardware/lots.tsx',
]

let inside: Awaited<ReturnType<BrowserContext['storageState']>>

test.beforeAll(async ({ browser }) => {
  test.setTimeout(200_000)
  const { page, context } = await asMember(browser, 'signe')
  inside = await context.storageState()
  await logBoards(page, {
    piece: 'Maple worktop',
    species: 'softMaple',
    terms: 'mine',
    boards: [
      ['1620', '140', '57', 2],
      ['1620', '140', '27', 3],
      ['1620', '152', '26', 2],
    ],
  })
  at.teardown = new URL(page.url()).pathname
  const boards = page.getByRole('list', { name: /Boards of this piece/ }).getByRole('link')
  at.board = (await boards.first().getAttribute('href'))!
  at.build = await buildWith(page, 'Maple seat', { 'Seats abreast': '1', Wood: 'softMaple' })
  await planCutting(page, at.build)
  await page.getByRole('button', { name: /^Hold / }).click()
  const record = page.getByRole('link', { name: 'Record the cutting' }).first()
  await expect(record).toBeVisible()
  at.record = (await record.getAttribute('href'))!
  await page.goto(`${at.build}/variants`)
  at.variant = (await page.getByRole('link', { name: 'Look at First' }).getAttribute('href'))!
  await page.goto('/stations')
  at.station = (await page.getByRole('link', { name: /^Assembly bench/ }).getAttribute('href'))!
  at.join = new URL(
    await invite(page, { name: 'Guest', email: `guest.${Date.now()}@newcomers.example`, password: '' }),
  ).pathname
  await context.close()
})

/** Every row of a table as text, in order: equal before and after means that nothing was stored. */
async function rowsOf(table: string): Promise<unknown> {
  const [row] = await ask(
    `select count(*)::int as n, md5(string_agg(t::text, '|' order by t::text)) as all from "${table}" t`,
  )
  return row
}

const fieldOf = (form: Locator, label: string) => form.getByLabel(label, { exact: true }).last()

async function judge(form: Locator, tried: readonly Typed[]): Promise<void> {
  for (const [label, typed, says] of tried) {
    const field = fieldOf(form, label)
    await expect(field, `what was typed as ${label}`).toHaveValue(typed)
    if (!says) continue
    await expect(field, label).toHaveAttribute('aria-invalid', 'true')
    await expect(field, label).toHaveAccessibleDescription(says)
    const sentence = (await field.getAttribute('aria-describedby'))!.split(' ')[0]
    await expect(form.locator(`[id="${sentence}"]`), `the sentence beside ${label}`).toBeVisible()
  }
}

for (const bad of FORMS)
  test(`bad input: ${bad.form}, ${bad.source}`, async ({ browser }) => {
    const context = await browser.newContext(bad.outside ? {} : { storageState: inside })
    const page = await context.newPage()
    const before = await rowsOf(bad.table)
    for (const tried of bad.tries) {
      // A draft of the last try would be kept for the next one.
      if (page.url() !== 'about:blank') await page.evaluate(() => sessionStorage.clear())
      await page.goto(bad.path())
      await bad.open?.(page)
      const form = page.getByRole('form', { name: bad.form, exact: true })
      for (const [label, typed] of tried) await fieldOf(form, label).fill(typed)
      await form.getByRole('button', { name: bad.button }).click()
      await judge(form, tried)
      const first = tried.find(([, , says]) => says)![0]
      if (!bad.isPlain) await expect(fieldOf(form, first)).toBeFocused()
      expect(await rowsOf(bad.table), 'nothing is stored').toEqual(before)
    }
    await expectAccessible(page)
    await context.close()
  })

test('a draft that cannot be built is kept, over the piece that was saved', async ({ browser }) => {
  const context = await browser.newContext({ storageState: inside })
  const page = await context.newPage()
  await page.goto(`${at.build}/design`)
  const height = page
    .getByRole('form', { name: 'Numbers of the design' })
    .getByLabel('Counter height', { exact: true })
  await height.fill('as high as the old one')
  await expect(page.getByText('Not saved: some numbers need another look.')).toBeVisible()
  await page.goto('/pool')
  await page.goto(`${at.build}/design`)
  await expect(height).toHaveValue('as high as the old one')
  await expect(height).toHaveAttribute('aria-invalid', 'true')
  await expect(page.getByText('Shown is the last piece that could be built.')).toBeVisible()
  await expect(page.getByRole('img', { name: /front|side|top/i }).first()).toBeVisible()
  await page.getByRole('button', { name: 'Put back', exact: true }).click()
  await expect(page.getByText('Shown is the last piece that could be built.')).toHaveCount(0)
  await context.close()
})

test('a board thinner than its part: the plan says short, and why', async ({ browser }) => {
  const { page, context } = await asMember(browser, 'signe')
  await logBoards(page, {
    piece: 'Thin alder shelves',
    species: 'redAlder',
    terms: 'mine',
    boards: [['1620', '140', '9', 4]],
  })
  const build = await buildWith(page, 'Alder seat', { Wood: 'redAlder' })
  await planCutting(page, build)
  await expect(page.getByText(/None of the \d+ parts comes out of the pool/)).toBeVisible()
  const short = page.getByRole('region', { name: 'Short' })
  await expect(short.getByText(/thin|thick/i).first()).toBeVisible()
  await expect(page.getByRole('button', { name: /^Hold / })).toHaveCount(0)
  await context.close()
})

test('every form that the pages have is judged here', () => {
  const app = path.resolve(import.meta.dirname, '../app')
  const files = fs.readdirSync(app, { recursive: true, encoding: 'utf8' })
  const withForm = files.filter((file) => {
    if (!file.endsWith('.tsx') || /^ui\/(form|tap|dialog-question)\.tsx$/.test(file)) return false
    return /<(Form|LinkForm|form)[\s>]/.test(fs.readFileSync(path.join(app, file), 'utf8'))
  })
  const judged = [...FORMS.map((f) => f.source), ...NOTHING_TO_TYPE, ...ELSEWHERE]
  expect(withForm.sort()).toEqual([...judged].sort())
})
