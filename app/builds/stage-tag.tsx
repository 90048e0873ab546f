import { type Stage, stageWords } from '#lib/shop/build-stage'
import { Tag, type TagTone } from '../ui/tag'

const TONE: Record<Stage, TagTone> = {
  design: 'plain',
  plan: 'busy',
  short: 'caution',
  hold: 'held',
  book: 'waiting',
  cut: 'busy',
  assemble: 'busy',
  drying: 'waiting',
  finished: 'good',
  givenUp: 'stop',
}

export function StageTag({ stage }: { readonly stage: Stage }) {
  return <Tag tone={TONE[stage]}>{stageWords(stage)}</Tag>
}
