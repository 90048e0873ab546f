import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { shopSettings } from '#lib/data/shop'
import { typedLength } from '#lib/format/length'
import { typedMoney } from '#lib/format/money'
import { load, settings } from '../load'
import { ChoiceField, LengthField, TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { Page, Section } from '../ui/sheet'
import { ZoneField } from '../ui/zone-field'
import { shopAction } from './actions'

export const metadata: Metadata = { title: 'Shop' }

export default async function ShopPage() {
  const [me, shop] = await Promise.all([settings(), load(shopSettings, {})])
  if (me.role !== 'admin') notFound()
  const length = (valueUm: number) => ({ units: me.units, defaultValue: typedLength(valueUm, me.units) })
  const zones = [...new Set([...Intl.supportedValuesOf('timeZone'), 'UTC', shop.timeZone])]
  return (
    <Page title={shop.name} lead="What holds for everyone in the shop.">
      <Form action={shopAction} label="Shop" done="Saved." className="grid max-w-2xl gap-10">
        <input type="hidden" name="shownIn" value={me.units} />
        <Section title="The shop">
          <div className="grid gap-4">
            <TextField label="Name" name="name" defaultValue={shop.name} required />
            <ZoneField
              zones={zones}
              defaultValue={shop.timeZone}
              help="Opening hours follow this clock. Bookings that there are keep their instant."
            />
            <div className="grid gap-4 sm:grid-cols-2">
              <ChoiceField
                label="Lengths are shown in"
                name="units"
                defaultValue={shop.units}
                options={[
                  { value: 'mm', label: 'Millimetres' },
                  { value: 'in', label: 'Inches' },
                ]}
              />
              <TextField
                label="Currency"
                name="currency"
                defaultValue={shop.currency}
                maxLength={3}
                help="Three letters (ISO 4217), like EUR."
              />
            </div>
          </div>
        </Section>
        <Section title="Holds">
          <TextField
            label="A hold lasts"
            name="holdHours"
            unit="h"
            inputMode="numeric"
            defaultValue={shop.holdHours}
            className="max-w-60"
            help="Then it lapses and the boards are free again, unless its maker extends it."
          />
        </Section>
        <Section
          title="Allowances"
          note="What is cut oversize and taken off again. Plans made from now on reckon with these; your own machines and habits decide."
        >
          <div className="grid gap-4 sm:grid-cols-2">
            <LengthField
              label="Added to each length"
              name="lengthAllowanceUm"
              {...length(shop.lengthAllowanceUm)}
              help="For the last clean cut to length."
            />
            <LengthField
              label="Added to each width"
              name="widthAllowanceUm"
              {...length(shop.widthAllowanceUm)}
              help="For jointing the edges."
            />
            <LengthField
              label="Skimmed off a face"
              name="skimUm"
              {...length(shop.skimUm)}
              help="Beyond what flattening takes."
            />
            <LengthField
              label="Trimmed off an end"
              name="endTrimUm"
              {...length(shop.endTrimUm)}
              help="Old ends hide checks, paint and grit."
            />
          </div>
        </Section>
        <Section
          title="What new wood costs"
          id="prices"
          note="A cubic metre of sawn wood, in the currency above. Variants of a build say by it what their wood would cost new; left empty, they do not say."
        >
          <div className="grid gap-4 sm:grid-cols-2">
            <TextField
              label="Softwood"
              name="softwoodPerM3"
              inputMode="decimal"
              unit={`${shop.currency} / m³`}
              defaultValue={typedMoney(shop.softwoodPerM3Minor, shop.currency)}
              help="Pine, spruce, larch: construction timber."
            />
            <TextField
              label="Hardwood"
              name="hardwoodPerM3"
              inputMode="decimal"
              unit={`${shop.currency} / m³`}
              defaultValue={typedMoney(shop.hardwoodPerM3Minor, shop.currency)}
              help="Oak, ash, beech, as your yard sells them."
            />
          </div>
        </Section>
        <div>
          <Submit>Save</Submit>
        </div>
      </Form>
    </Page>
  )
}
