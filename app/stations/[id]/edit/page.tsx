import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import Link from '#app/ui/link'
import { people } from '#lib/data/members'
import { oneStation } from '#lib/data/stations'
import { load, settings } from '../../../load'
import { AskFirst } from '../../../ui/dialog'
import { Form, Submit } from '../../../ui/form'
import { Page, Section } from '../../../ui/sheet'
import { editStationAction, retireStationAction, tuneStationAction } from '../../actions'
import { SettingFields, TuningFields } from '../../station-fields'

export const metadata: Metadata = { title: 'Change a station' }

export default async function EditStationPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: stationId } = await params
  const [me, station, everyone] = await Promise.all([
    settings(),
    load(oneStation, { stationId }),
    load(people, {}),
  ])
  if (!station.mayKeep) notFound()
  const isAdmin = me.role === 'admin'
  return (
    <Page
      title={`Change ${station.name}`}
      above={<Link href={`/stations/${stationId}`}>{station.name}</Link>}
    >
      <Form
        action={isAdmin ? editStationAction : tuneStationAction}
        label="Change the station"
        className="grid max-w-3xl gap-9"
      >
        <input type="hidden" name="stationId" value={stationId} />
        {isAdmin ? (
          <SettingFields station={station} keepers={everyone.filter((p) => p.role !== 'member')} />
        ) : null}
        <TuningFields station={station} units={me.units} />
        <div>
          <Submit>Save</Submit>
        </div>
      </Form>
      {isAdmin ? (
        <Section title="Out of use" note="A station that is out of use cannot be booked any more.">
          <AskFirst
            label="Take it out of use"
            look="stop"
            question={`Take ${station.name} out of use?`}
            consequence="It leaves the list, and every booking of it to come is cancelled. This cannot be taken back; add it anew instead."
            yes="Take it out of use"
            action={retireStationAction}
            hidden={{ stationId }}
          />
        </Section>
      ) : null}
    </Page>
  )
}
