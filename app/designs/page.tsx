import type { Metadata } from 'next'
import { type ReactNode, Suspense } from 'react'
import { recipes } from '#lib/core/design/designs/recipes'
import { designs } from '#lib/core/design/designs/registry'
import { offered } from '#lib/data/own-designs'
import { DesignPreview } from '../builds/new/design-preview'
import { load } from '../load'
import { ButtonLink } from '../ui/button'
import { Live } from '../ui/live'
import { Empty, Page, Section } from '../ui/sheet'
import { CopyForm } from './copy-form'

export const metadata: Metadata = { title: 'Designs' }

export default async function DesignsPage() {
  const own = await load(offered, {})
  const [mine, others] = [own.filter((d) => d.isMine), own.filter((d) => !d.isMine)]
  return (
    <Page
      title="Designs"
      lead="Copy a design, change its parts and formulas, and build from it. Your copy is yours until you share it."
      actions={<ButtonLink href="/builds/new">Start a build</ButtonLink>}
    >
      <Live topics={['designs']} />
      <Section title="Yours">
        {mine.length === 0 ? (
          <Empty title="No design of your own yet">
            Copy one of the designs below that comes near to what you want, and change it.
          </Empty>
        ) : (
          <Cards>
            {mine.map((d) => (
              <Card key={d.id} {...d} goodFor={d.recipe?.goodFor ?? ''}>
                <p className="text-[0.92rem] text-ink-soft">
                  Version {d.number}, {d.sharing === 'shop' ? 'shared with the shop' : 'yours alone'}
                </p>
                <ButtonLink href={`/designs/${d.id}`}>Change it</ButtonLink>
              </Card>
            ))}
          </Cards>
        )}
      </Section>
      {others.length > 0 ? (
        <Section title="Shared by others">
          <Cards>
            {others.map((d) => (
              <Card key={d.id} {...d} goodFor={d.recipe?.goodFor ?? ''}>
                <p className="text-[0.92rem] text-ink-soft">
                  Version {d.number}, by {d.ownerName}
                </p>
                <ButtonLink href={`/designs/${d.id}`}>Look at it</ButtonLink>
                <CopyForm from={d.designId} name={d.name} />
              </Card>
            ))}
          </Cards>
        </Section>
      ) : null}
      <Section title="Shipped with the shop">
        <Cards>
          {designs.map((d) => (
            <Card key={d.id} designId={d.id} name={d.name} goodFor={d.goodFor}>
              {recipes.has(d.id) ? (
                <CopyForm from={d.id} name={d.name} />
              ) : (
                <p className="text-[0.92rem] text-ink-soft">
                  Can be built, not copied: its formulas are not written in rows yet.
                </p>
              )}
            </Card>
          ))}
        </Cards>
      </Section>
    </Page>
  )
}

const Cards = ({ children }: { readonly children: ReactNode }) => (
  <ul className="grid gap-4 sm:grid-cols-2">{children}</ul>
)

interface CardProps {
  readonly designId: string
  readonly name: string
  readonly goodFor: string
  readonly children: ReactNode
}

function Card({ designId, name, goodFor, children }: CardProps) {
  return (
    <li className="grid min-w-0 content-start gap-3 border border-hairline bg-sheet p-4">
      <Suspense fallback={<div className="h-56" />}>
        <DesignPreview designId={designId} />
      </Suspense>
      <div>
        <h3 className="text-[1.1rem] leading-tight font-semibold wrap-anywhere">{name}</h3>
        <p className="mt-1 text-ink-soft wrap-anywhere">{goodFor}</p>
      </div>
      {children}
      <a href={`/builds/new?design=${encodeURIComponent(designId)}`} className="link min-h-11 content-center">
        Start a build<span className="sr-only"> from {name}</span>
      </a>
    </li>
  )
}
