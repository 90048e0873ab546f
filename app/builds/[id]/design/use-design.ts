'use client'
import { useEffect, useMemo, useRef, useState } from 'react'
import type { Design, Model, ParameterValues } from '#lib/core/design/model'
import { browserDesign } from '#lib/engine/browser-design'

/** The design, fetched after the page: its code is not part of what the page needs to be read. */
export function useDesign(designId: string): { design: Design | null; failed: boolean } {
  const [design, setDesign] = useState<Design | null>(null)
  const [failed, setFailed] = useState(false)
  useEffect(() => {
    let mounted = true
    browserDesign(designId)
      .then((found) => {
        if (mounted) found ? setDesign(found) : setFailed(true)
      })
      .catch(() => mounted && setFailed(true))
    return () => {
      mounted = false
    }
  }, [designId])
  return { design, failed }
}

export interface LiveModel {
  /** Of the last numbers that could be built; null before the first. */
  readonly model: Model | null
  /** Whether it is of what stands in the fields now. */
  readonly isCurrent: boolean
  /** What the design says against the numbers, by parameter. */
  readonly refusals: Readonly<Record<string, string>>
}

/**
 * @param values null while some of them cannot be read
 * @param saved shown until the first numbers that can be built: what was typed may be a draft from before
 */
export function useModel(
  design: Design | null,
  values: ParameterValues | null,
  saved: ParameterValues,
): LiveModel {
  const last = useRef<Model | null>(null)
  return useMemo(() => {
    const before = (): Model | null => {
      if (last.current || !design) return last.current
      const built = design.build(saved)
      return built.ok ? built.value : null
    }
    if (!design || !values) return { model: before(), isCurrent: false, refusals: {} }
    const built = design.build(values)
    if (built.ok) {
      last.current = built.value
      return { model: built.value, isCurrent: true, refusals: {} }
    }
    const refusals: Record<string, string> = {}
    for (const { parameter, message } of built.error) refusals[parameter] ??= message
    return { model: before(), isCurrent: false, refusals }
  }, [design, values, saved])
}
