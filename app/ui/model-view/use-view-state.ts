'use client'
/** What of a model is shown and how: taken apart, cut open, someone beside it, two features measured. */
import { useMemo, useState } from 'react'
import { type Feature, type Measurement, measureBetween } from '#lib/core/design/measure'
import type { Model } from '#lib/core/design/model'
import { STATURES } from '#lib/core/design/person-outline'
import { takeApart } from '#lib/core/design/take-apart'
import { scale, type Vec3 } from '#lib/core/geometry/vec3'
import type { Extent } from './camera-fit'
import type { SectionPlane } from './parts-scene'
import { hasSeat, type Person } from './surroundings'

export const CUTS = ['none', 'across', 'lengthways', 'level'] as const
export type Cut = (typeof CUTS)[number]

/** The axis that a cut stands square to, and the side of it that is taken away. */
const CUT_SIDE: Readonly<Record<Exclude<Cut, 'none'>, readonly [axis: 0 | 1 | 2, way: 1 | -1]>> = {
  across: [0, 1],
  lengthways: [1, -1],
  level: [2, 1],
}

/** Pieces lower and narrower than this need nobody beside them to be understood. */
const LARGE_MM = 700

function sectionAt(cut: Cut, share: number, { low, high }: Extent): SectionPlane | undefined {
  if (cut === 'none') return undefined
  const [axis, way] = CUT_SIDE[cut]
  const at = low[axis] + share * (high[axis] - low[axis])
  const along = (value: number): Vec3 => [0, 1, 2].map((i) => (i === axis ? value : 0)) as unknown as Vec3
  return { point: along(at), normal: along(way) }
}

const usualPerson = (model: Model, { low, high }: Extent): string =>
  hasSeat(model) || Math.max(...high.map((v, i) => v - low[i])) > LARGE_MM ? 'woman50' : 'none'

const NONE: readonly Feature[] = []

/** Two features at most; a third begins anew. */
export interface Measuring {
  readonly isOn: boolean
  readonly features: readonly Feature[]
  readonly result: Measurement | undefined
}

/** @param extent of the model where it stands @param isAlone nobody stands beside it */
export function useViewState(model: Model, extent: Extent, isAlone = false) {
  const [apart, setApart] = useState(0)
  const [cut, setCut] = useState<Cut>('none')
  const [cutShare, setCutShare] = useState(0.5)
  const [personId, setPersonId] = useState(() => (isAlone ? 'none' : usualPerson(model, extent)))
  const [isSeated, setSeated] = useState(true)
  const [isMeasuring, setMeasuring] = useState(false)
  // Features lie in one model: those of another are none.
  const [marked, setMarked] = useState<{ of: Model; features: readonly Feature[] }>({
    of: model,
    features: [],
  })
  const features = marked.of === model ? marked.features : NONE
  const setFeatures = (next: readonly Feature[]): void => setMarked({ of: model, features: next })

  const isApart = apart > 0
  const full = useMemo(() => (isApart ? takeApart(model) : undefined), [model, isApart])
  const offsets = useMemo(
    () => full && new Map([...full].map(([id, by]) => [id, scale(by, apart)] as const)),
    [full, apart],
  )
  const section = useMemo(() => sectionAt(cut, cutShare, extent), [cut, cutShare, extent])
  const stature = STATURES.find(({ id }) => id === personId)?.statureMm
  const canSit = hasSeat(model)
  const posture = canSit && isSeated ? 'seated' : 'standing'
  const person = useMemo(
    (): Person | undefined => (stature === undefined ? undefined : { statureMm: stature, posture }),
    [stature, posture],
  )
  const [a, b] = features
  const result = useMemo(() => (a && b ? measureBetween(a, b) : undefined), [a, b])
  return {
    apart,
    cut,
    cutShare,
    personId,
    person,
    isSeated,
    canSit,
    offsets,
    section,
    measuring: { isOn: isMeasuring, features, result } satisfies Measuring,
    /** Measured is what stands together. */
    setApart: (share: number): void => {
      setApart(share)
      if (share > 0) setMeasuring(false)
    },
    setCut,
    setCutShare,
    setPersonId,
    setSeated,
    setMeasuring: (isOn: boolean): void => {
      setMeasuring(isOn)
      setFeatures([])
      if (isOn) setApart(0)
    },
    addFeature: (feature: Feature): void =>
      setFeatures(features.length === 1 ? [...features, feature] : [feature]),
    setFeatures,
  }
}

export type ViewState = ReturnType<typeof useViewState>

/**
 * What is shown of the model, in a few words.
 * @example seenWords({ apart: 0, cut: 'level' }) //=> 'Cut open level'
 */
export function seenWords({ apart, cut }: Pick<ViewState, 'apart' | 'cut'>): string {
  if (cut === 'none') return apart > 0 ? 'Taken apart' : 'Whole'
  return apart > 0 ? `Taken apart, cut open ${cut}` : `Cut open ${cut}`
}
