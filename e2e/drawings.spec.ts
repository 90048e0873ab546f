import { type Download, expect, type Page, test } from '@playwright/test'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expectAccessible, expectNoSideways } from './support/looks'
import { emailOf, signIn } from './support/people'
import { startBuild } from './support/work'

async function bytesOf(download: Download): Promise<Buffer> {
  const chunks: Buffer[] = []
  for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer)
  return Buffer.concat(chunks)
}

/** A file of the list on the page. */
async function fileOf(page: Page, label: string, format: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: `Download ${label}, ${format}`, exact: true }).click(),
  ])
  return { name: download.suggestedFilename(), bytes: await bytesOf(download) }
}

async function pdfTexts(bytes: Buffer): Promise<string[]> {
  expect(bytes.subarray(0, 5).toString()).toBe('%PDF-')
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false })
  const pdf = await task.promise
  const sheets: string[] = []
  for (let n = 1; n <= pdf.numPages; n++) {
    const { items } = await (await pdf.getPage(n)).getTextContent()
    sheets.push(items.map((item) => ('str' in item ? item.str : '')).join(' '))
  }
  await task.destroy()
  return sheets
}

test('drawings to scale, and every file that leaves the shop @phone', async ({ page }) => {
  test.setTimeout(240_000)
  await signIn(page, emailOf('noor'))
  // Legs raked 8° under an underside at 577.4 mm: 577.4 / cos 8° = 583.1 mm along either edge.
  const build = await startBuild(page, 'A seat to be drawn')
  await page.goto(build)
  await page.getByRole('navigation', { name: 'This build' }).getByRole('link', { name: 'Drawings' }).click()
  await expect(page).toHaveURL(/\/drawings$/)
  const sheet = page.getByRole('region', { name: 'The sheet' }).getByRole('img')

  await test.step('the whole piece stands there first, with no graphics card needed', async () => {
    await expect(sheet).toHaveAccessibleName(/^The whole piece, 1:(10|20)\. .*8°/)
    await expect(page.getByText('First-angle projection')).toBeVisible()
  })

  await test.step('a part alone, at the scale and in the units that are chosen', async () => {
    const form = page.getByRole('form', { name: 'Choose a sheet' })
    await form.getByLabel('Sheet', { exact: true }).selectOption('part-1')
    await form.getByRole('button', { name: 'Show' }).click()
    await expect(sheet).toHaveAccessibleName(/^Leg, hand a.*, 1:5\. .*583\.1/)
    await form.getByLabel('Lengths in').selectOption('in')
    await form.getByRole('button', { name: 'Show' }).click()
    await expect(sheet).toHaveAccessibleName(/22 15\/16"/)
    await form.getByLabel('Lengths in').selectOption('mm')
    await form.getByLabel('Paper').selectOption('a4')
    await form.getByLabel('Scale').selectOption('1')
    await form.getByRole('button', { name: 'Show' }).click()
    await expect(page.getByText('Too large for the sheet')).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
    await page.getByRole('link', { name: 'Show it at 1:5' }).click()
    await expect(sheet).toHaveAccessibleName(/583\.1/)
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('PDF and SVG', async () => {
    const one = await fileOf(page, 'This sheet', 'PDF')
    expect(one.name).toBe('a-seat-to-be-drawn-sheet.pdf')
    const [text, ...more] = await pdfTexts(one.bytes)
    expect(more).toEqual([])
    for (const word of ['583.1', '1:5', 'A seat to be drawn', 'Gantry Street Workshop'])
      expect(text).toContain(word)
    const svg = (await fileOf(page, 'This sheet as lines', 'SVG')).bytes.toString()
    expect(svg).toMatch(/^<\?xml version="1\.0"[^>]*>\n<svg [^>]*width="297mm" height="210mm"/)
    expect(svg).toContain('>583.1<')
    const all = await pdfTexts((await fileOf(page, 'All sheets', 'PDF')).bytes)
    expect(all.length).toBeGreaterThan(8)
    expect(all[all.length - 1]).toContain(`${all.length} of ${all.length}`)
    const templates = await pdfTexts((await fileOf(page, 'Full-size templates', 'PDF')).bytes)
    for (const one of templates) expect(one).toContain('100 mm')
    const packet = (await pdfTexts((await fileOf(page, 'Job packet', 'PDF')).bytes))
      .join(' ')
      .replace(/\s+/g, ' ')
    for (const word of ['Cut list', '589.4', 'Joints and hardware', 'cleared of metal'])
      expect(packet).toContain(word)
  })

  await test.step('lists and solids', async () => {
    const list = (await fileOf(page, 'Cut list', 'CSV')).bytes.toString()
    expect(list).toMatch(/^part,count,length_mm,/)
    expect(list).toMatch(/\r\n"Leg, hand a[^"]*",\d+,589\.(?:4|39\d*),45,38,/)
    expect((await fileOf(page, 'Hardware list', 'CSV')).bytes.toString()).toMatch(
      /screw,No\. 8 × \d+ mm,\d+\r\n/,
    )
    const glb = (await fileOf(page, 'The piece in three dimensions', 'GLB')).bytes
    expect(glb.subarray(0, 4).toString()).toBe('glTF')
    expect([glb.readUInt32LE(4), glb.readUInt32LE(8)]).toEqual([2, glb.length])
    const stl = (await fileOf(page, 'The piece as a solid', 'STL')).bytes
    expect(stl.length).toBe(84 + 50 * stl.readUInt32LE(80))
  })
})

test('files are for members of the shop, and a sheet that is none is not made up', async ({
  page,
  request,
}) => {
  await signIn(page, emailOf('bram'))
  await page.goto('/builds')
  const hrefs = await page
    .locator('main a')
    .evaluateAll((links) => links.map((a) => a.getAttribute('href') ?? ''))
  const build = hrefs.find((href) => /^\/builds\/[0-9a-f-]{36}$/.test(href))!
  const inside = await page.request.get(`${build}/drawings/cut-list.csv`)
  expect(inside.headers()['content-type']).toContain('text/csv')
  expect((await page.request.get(`${build}/drawings/secret.pdf`)).status()).toBe(404)
  expect((await page.request.get(`${build}/drawings/sheet.svg?sheet=part-99`)).status()).toBe(422)
  const outside = await request.get(`${build}/drawings/cut-list.csv`, { maxRedirects: 0 })
  expect([302, 303, 307, 308]).toContain(outside.status())
})
