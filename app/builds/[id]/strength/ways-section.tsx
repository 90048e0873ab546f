'use client'
import { useEffect } from 'react'
import { say3 } from '#lib/core/statics/checks'
import type { JointWay } from '#lib/core/statics/compare-joints'
import { carrierWords, marginWords } from '#lib/shop/strength-words'
import { Section } from '../../../ui/sheet'
import { Tag } from '../../../ui/tag'
import { useSay } from './say'
import { type Asked, type Desk, useStrength } from './use-strength'

/** The ways to join that the design offers, side by side under the same loads; nothing where it offers one only. */
export function WaysSection({ desk, asked }: { desk: Desk; asked: Asked }) {
  const say = useSay()
  const { asking, start } = useStrength<'compare'>(desk)
  useEffect(() => start({ kind: 'compare', ...asked }), [asked, start])
  if (asking.state !== 'done') return null
  const { ways, sentence } = asking.answer.comparison
  if (ways.filter(({ outcome }) => outcome.ok).length < 2) return null
  return (
    <Section title="Ways to join it">
      <p className="max-w-[68ch] text-[1.1rem] font-medium">{say(sentence)}</p>
      <ul className="mt-4 grid grid-cols-[repeat(auto-fit,minmax(min(100%,12.5rem),1fr))] gap-x-6 gap-y-5">
        {ways.map((way) => (
          <Way key={way.label} way={way} isChosen={isChosen(way, asked)} />
        ))}
      </ul>
    </Section>
  )
}

const isChosen = ({ choices }: JointWay, { parameters }: Asked) =>
  Object.entries(choices).every(([id, value]) => parameters[id] === value)

function Way({ way: { label, outcome }, isChosen }: { way: JointWay; isChosen: boolean }) {
  const say = useSay()
  return (
    <li className="border-t-2 border-ink pt-2">
      <h3 className="font-semibold">{label.charAt(0).toUpperCase() + label.slice(1)}</h3>
      {isChosen ? <Tag tone="held">as this build is</Tag> : null}
      {outcome.ok ? (
        <>
          <p className="mt-1.5">The worst joint {marginWords(outcome.margin)}.</p>
          <p className="mt-1">Once the glue has let go, it {marginWords(outcome.marginWithoutGlue)}.</p>
          <p className="mt-2 text-[0.92rem] text-ink-soft">
            «{outcome.between[0]}» to «{outcome.between[1]}», {outcome.loadCase.toLowerCase()}.{' '}
            {say(`It sways ${say3(outcome.swayMm)} mm.`)}
          </p>
          <ul className="mt-2 grid gap-1 text-[0.92rem]">
            {outcome.carriers.map((carrier) => (
              <li key={`${carrier.kind} ${carrier.how}`}>{say(carrierWords(carrier))}</li>
            ))}
          </ul>
        </>
      ) : (
        <p className="mt-1.5 text-ink-soft">{outcome.sentence}</p>
      )}
    </li>
  )
}
