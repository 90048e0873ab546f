import type { Metadata } from 'next'
import { DrawingSet } from '#lib/documents/drawing-set'
import { plateOptions, tooLargeWords } from '#lib/documents/make-document'
import type { MadePlate } from '#lib/documents/sheet/drawing-plates'
import { type Box, frameOf } from '#lib/documents/sheet/paper'
import { plateMarks, type TitleBlock } from '#lib/documents/sheet/plate'
import { svgTree } from '#lib/documents/sheet/svg-tree'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { sayInUnits } from '#lib/format/sentence'
import { settings } from '../../../load'
import { ButtonLink } from '../../../ui/button'
import { SheetSvg } from '../../../ui/drawing/sheet-svg'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Empty, Page, Section } from '../../../ui/sheet'
import { type Asked, askedFor, type Params, queryOf } from './asked'
import { buildModel } from './build-model'
import { Files } from './files'
import { Picker } from './picker'

export const metadata: Metadata = { title: 'Drawings & files' }

const LEAD =
  'Everything that leaves the shop as paper or as a file: drawings to scale, templates, cut list, solids.'

interface Props {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<Params>
}

export default async function DrawingsPage({ params, searchParams }: Props) {
  const { id: buildId } = await params
  const [{ units }, made] = await Promise.all([settings(), buildModel(buildId, new Date())])
  const asked = askedFor(await searchParams, units)
  if (made.status !== 'made')
    return (
      <Page title="Drawings & files" lead={LEAD}>
        <Live topics={[`build:${buildId}`]} />
        <Empty
          title={
            made.status === 'gone'
              ? 'This design is not in the shop any more'
              : 'There is nothing to draw yet'
          }
          action={<ButtonLink href={`/builds/${buildId}/design`}>Go to the design</ButtonLink>}
        >
          {made.status === 'gone'
            ? 'The build was begun with a design that this version of Fellowbench does not have.'
            : `These numbers make no piece of furniture: ${made.refusals.map(({ message }) => sayInUnits(message, units)).join(' ')}`}
        </Empty>
      </Page>
    )
  const set = new DrawingSet(await loadSolidKernel(), made.model)
  const sheet = set.names.some(({ id }) => id === asked.sheet) ? asked.sheet : 'all'
  const wanted = { ...asked, sheet }
  const plate = set.sheet(sheet, { ...plateOptions(wanted), scale: wanted.scale })!
  const number = { sheet: set.names.findIndex(({ id }) => id === sheet) + 1, of: set.names.length }
  return (
    <Page title="Drawings & files" lead={LEAD}>
      <Live topics={[`build:${buildId}`]} />
      <Section title="Drawings">
        <Picker buildId={buildId} names={set.names} asked={wanted} />
        <ShownSheet
          buildId={buildId}
          made={plate}
          asked={wanted}
          titleBlock={made.titleBlock}
          number={number}
        />
      </Section>
      <Files buildId={buildId} asked={wanted} />
    </Page>
  )
}

/** Without the margins of the paper: a screen has its own. */
const around = ({ x0, y0, x1, y1 }: Box): Box => ({ x0: x0 - 1, y0: y0 - 1, x1: x1 + 1, y1: y1 + 1 })

interface ShownProps {
  readonly buildId: string
  readonly made: MadePlate
  readonly asked: Asked
  readonly titleBlock: TitleBlock
  readonly number: { readonly sheet: number; readonly of: number }
}

function ShownSheet({ buildId, made, asked, titleBlock, number }: ShownProps) {
  if (made.status === 'tooLarge')
    return (
      <div className="mt-4">
        <Notice level="caution" title="Too large for the sheet">
          {tooLargeWords(made)}{' '}
          <a
            className="link"
            href={`/builds/${buildId}/drawings?${queryOf({ ...asked, scale: made.largest })}`}
          >
            Show it at 1:{made.largest}
          </a>
        </Notice>
      </div>
    )
  const { plate } = made
  const marks = plateMarks(plate, titleBlock, number)
  const title = `${plate.title}, ${plate.scale}`
  const tree = svgTree({ title, marks, box: around(frameOf(plate)) }, 'page')
  return (
    <section
      // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached with the keyboard
      tabIndex={0}
      aria-label="The sheet"
      className="mt-4 overflow-x-auto border border-hairline print:border-0"
    >
      <SheetSvg
        tree={tree}
        label={`${title}. ${plate.drawings.flatMap(({ drawing }) => drawing.texts.map(({ text }) => text)).join(', ')}`}
        className={
          plate.turned
            ? 'block h-auto w-full min-w-[56rem] print:min-w-0'
            : 'mx-auto block h-auto w-full min-w-[40rem] max-w-[52rem] print:min-w-0'
        }
      />
    </section>
  )
}
