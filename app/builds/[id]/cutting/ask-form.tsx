import type { LengthUnit } from '#lib/core/units/inches'
import type { GlueableNeed } from '#lib/data/cut-plans'
import { sayLength } from '#lib/format/length'
import type { OrderOfCuts } from '#lib/shop/plan-input'
import { CheckField, ChoiceField } from '../../../ui/field'
import { Form, Submit } from '../../../ui/form'
import { askForPlan } from './actions'

/** How long a plan may be looked for. */
export const TIMES = [
  { value: '5', label: '5 s' },
  { value: '20', label: '20 s' },
  { value: '60', label: '1 min' },
  { value: '300', label: '5 min' },
] as const

/** In which order a board is broken down. */
const ORDERS = [
  { value: 'any', label: 'Any order' },
  { value: 'crosscut2', label: 'Crosscut to length, then rip' },
  { value: 'crosscut3', label: 'Crosscut, rip, then trim the length' },
  { value: 'rip2', label: 'Rip to width, then crosscut' },
  { value: 'rip3', label: 'Rip, crosscut, then trim the width' },
] as const

interface Props {
  readonly buildId: string
  readonly label: string
  readonly isFirst: boolean
  readonly glueable: readonly GlueableNeed[]
  readonly units: LengthUnit
  /** As it was asked for last. */
  readonly order: OrderOfCuts | undefined
}

/** How long to look for a better plan; the first one is there at once. */
export function AskForm({ buildId, label, isFirst, glueable, units, order }: Props) {
  return (
    <Form action={askForPlan} label="Plan the cutting" className="grid gap-4">
      <input type="hidden" name="buildId" value={buildId} />
      <ChoiceField
        label="Look for at most"
        name="seconds"
        options={TIMES}
        defaultValue="20"
        help="A first plan is there in a moment. The rest of the time goes into a better one; stop whenever it is good enough."
      />
      <ChoiceField
        label="Order of cuts"
        name="order"
        options={ORDERS}
        defaultValue={order ? `${order.firstCut}${order.stages}` : 'any'}
        help="Any order uses the boards best. A fixed one spares trips between saws; parts that it cannot make stay short."
      />
      {glueable.length > 0 ? <Glueable needs={glueable} units={units} /> : null}
      <div>
        <Submit look={isFirst ? 'primary' : 'plain'}>{label}</Submit>
      </div>
    </Form>
  )
}

/** Wide parts that may be made of staves, where that uses the pool better. */
function Glueable({ needs, units }: { needs: readonly GlueableNeed[]; units: LengthUnit }) {
  return (
    <fieldset className="grid gap-1">
      <legend className="font-medium">May be glued up from staves</legend>
      <p className="max-w-[60ch] text-[0.92rem] text-ink-soft">
        Staves of {sayLength(40_000, units)} to {sayLength(120_000, units)}, glued edge to edge where no board
        is wide enough, or where that uses less wood.
      </p>
      <div className="flex flex-wrap gap-x-6">
        {needs.map((need) => (
          <CheckField
            key={need.id}
            name="gluedUp"
            value={need.id}
            defaultChecked={need.isChosen}
            label={`${need.count === 1 ? '' : `${need.count} × `}${need.name}, ${sayLength(need.widthUm, units)} wide`}
          />
        ))}
      </div>
    </fieldset>
  )
}
