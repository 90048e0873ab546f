import 'server-only'
import type { LengthUnit } from '#lib/core/units/inches'
import { ofBuild } from '#lib/data/setups'
import type { PacketSetup } from '#lib/documents/packet'
import { load } from '../../../load'
import { KIND_WORDS } from '../../../stations/words'
import { benchSetups } from '../setups/bench-sheet'
import { plannedSetups } from '../setups/planned-setups'

interface PacketSetups {
  readonly setups?: readonly PacketSetup[]
  readonly setupNotes?: readonly string[]
}

/** The set-ups of a build as its page shows them, for paper; nothing before the cutting is planned. */
export async function packetSetups(buildId: string, units: LengthUnit): Promise<PacketSetups> {
  const work = await load(ofBuild, { buildId })
  if (!work || work.boards.length === 0) return {}
  const plan = plannedSetups(work.input)
  const setups = benchSetups(plan, work.input.model.parts, units).map(
    ({ station, newCautions, ...setup }) => ({
      ...setup,
      station: KIND_WORDS[station].word,
      cautions: newCautions,
    }),
  )
  const setupNotes = [
    ...(work.isDesignChanged
      ? [
          'The design has changed since the cutting was planned: these set-ups are for other numbers. Plan the cutting again first.',
        ]
      : []),
    ...(work.isUnfinished
      ? ['The cut plan was still being worked out: these set-ups follow the best one so far.']
      : []),
  ]
  return { setups, setupNotes }
}
