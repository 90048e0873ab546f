'use client'
import { useState } from 'react'
import { WAIT_KINDS, WAIT_PRACTICE, type WaitKind } from '#lib/shop/waits'
import { ChoiceField, TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Notice } from '../../ui/notice'
import { startWait } from './actions'

/** Hours follow what it is until someone types their own. */
export function WaitForm({ buildId }: { readonly buildId: string }) {
  const [kind, setKind] = useState<WaitKind>('glue')
  const [typed, setTyped] = useState<string | null>(null)
  const practice = WAIT_PRACTICE[kind]
  return (
    <Form
      action={startWait}
      label="Note something that has to dry"
      className="mt-2 grid max-w-[60rem] gap-5"
      done="Noted."
      again
      onDone={() => {
        setTyped(null)
        setKind('glue')
      }}
    >
      <input type="hidden" name="buildId" value={buildId} />
      <ChoiceField
        label="What is it?"
        name="kind"
        defaultValue="glue"
        onPick={(value) => setKind(value as WaitKind)}
        options={WAIT_KINDS.map((value) => ({ value, label: WAIT_PRACTICE[value].label }))}
      />
      <div className="grid gap-5 sm:grid-cols-3">
        <TextField label="Which one" name="label" placeholder="Left frame" help="May be left empty." />
        <TextField
          label="Hours"
          name="hours"
          unit="h"
          inputMode="decimal"
          value={typed ?? String(practice.hours)}
          onChange={(event) => setTyped(event.target.value)}
          help={
            <>
              {practice.practice}{' '}
              <span className="font-medium">Common practice; the tin’s label goes first.</span>
            </>
          }
        />
        <TextField
          label="Began how long ago"
          name="agoMinutes"
          unit="min"
          inputMode="numeric"
          defaultValue="0"
        />
      </div>
      {practice.caution ? <Notice level="caution">{practice.caution}</Notice> : null}
      <div>
        <Submit look="plain">Note it</Submit>
      </div>
    </Form>
  )
}
