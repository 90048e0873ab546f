import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { people } from '#lib/data/members'
import { load, settings } from '../../load'
import { Form, Submit } from '../../ui/form'
import { Page } from '../../ui/sheet'
import { createStationAction } from '../actions'
import { SettingFields, TuningFields } from '../station-fields'

export const metadata: Metadata = { title: 'Add a station' }

export default async function NewStationPage() {
  const [me, everyone] = await Promise.all([settings(), load(people, {})])
  if (me.role !== 'admin') notFound()
  return (
    <Page title="Add a station">
      <Form action={createStationAction} label="Add a station" className="grid max-w-3xl gap-9">
        <SettingFields keepers={everyone.filter((p) => p.role !== 'member')} />
        <TuningFields units={me.units} />
        <div>
          <Submit>Add the station</Submit>
        </div>
      </Form>
    </Page>
  )
}
