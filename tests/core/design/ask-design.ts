/** A design asked for a model, a figure, a refusal. */
import { designById } from '#lib/core/design/designs/registry'
import type { Design, Model, ParameterValues, Part } from '#lib/core/design/model'

export function modelOf(design: Design, values: ParameterValues = {}): Model {
  const built = design.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}

/** A shipped design by its id. */
export const shippedModel = (id: string, values: ParameterValues = {}): Model =>
  modelOf(designById(id) ?? fail(id), values)

function fail(id: string): never {
  throw new Error(`no design ${id}`)
}

/** The parameters that a set of values is refused for; none if it builds. */
export function refusedFor(design: Design, values: ParameterValues): string[] {
  const built = design.build(values)
  return built.ok ? [] : built.error.map((refusal) => refusal.parameter)
}

export function figureOf(model: Model, id: string): number {
  const found = model.figures.find((entry) => entry.id === id)
  if (found === undefined) throw new Error(`no figure ${id}`)
  return found.value
}

export function partOf(model: Model, id: string): Part {
  const found = model.parts.find((part) => part.id === id)
  if (found === undefined) throw new Error(`no part ${id}`)
  return found
}
