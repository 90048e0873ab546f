import type { Metadata } from 'next'
import { candidates, latest } from '#lib/data/plans-together'
import { load } from '../../../../load'
import { ButtonLink } from '../../../../ui/button'
import { Live } from '../../../../ui/live'
import { Notice } from '../../../../ui/notice'
import { Empty, Page, Section } from '../../../../ui/sheet'
import { buildHeader } from '../../header'
import { Progress } from '../progress'
import { TogetherForm } from './ask-form'
import { TogetherOutcome } from './outcome'

export const metadata: Metadata = { title: 'Plan together' }

export default async function TogetherPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [build, builds, view] = await Promise.all([
    buildHeader(buildId),
    load(candidates, { buildId }),
    load(latest, { buildId }),
  ])
  const isGoing = view?.status === 'queued' || view?.status === 'running'
  const mayAsk = build.isMine && build.isOpen && !isGoing
  const chosen = new Set(view?.input.builds.slice(1).map((b) => b.buildId))
  return (
    <Page
      title="Plan together"
      lead="Several builds on one pool, and what that saves against planning one after another."
      actions={
        <ButtonLink look="quiet" href={`/builds/${buildId}/cutting`}>
          Back to the cutting
        </ButtonLink>
      }
    >
      <Live topics={[`build:${buildId}`, 'pool', ...(view ? [`plan:${view.id}`] : [])]} />
      {view && isGoing ? <Progress plan={{ ...view, buildId, isMaker: build.isMine, attempt: 0 }} /> : null}
      {view?.status === 'failed' ? (
        <Notice level="stop" title="This plan failed">
          The fault is in the program, not in your boards. {view.failure} Tell your admin.
        </Notice>
      ) : null}
      {view?.result ? <TogetherOutcome view={view} result={view.result} isMine={build.isMine} /> : null}
      {!mayAsk && !view ? (
        <Empty title="Not planned together yet">The maker of this build has not asked for it.</Empty>
      ) : null}
      {mayAsk ? (
        <Section
          title={view ? 'Plan together again' : 'Which builds'}
          note="Builds of others are only read: nothing of theirs is held or changed. Each build uses only boards that its own maker may have, at that maker’s terms; each maker holds the boards for their own build."
        >
          {builds.length === 0 ? (
            <Empty title="No other build is open">
              As soon as another build has its design, the two can be planned together.
            </Empty>
          ) : (
            <TogetherForm {...{ buildId, builds, chosen }} buildName={build.name} isFirst={!view} />
          )}
        </Section>
      ) : null}
    </Page>
  )
}
