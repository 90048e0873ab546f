/** The solid kernel in Node: loaded once, on first use. */
import Module from 'manifold-3d'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { solidKernelFrom } from './solid-kernel'

let loading: Promise<SolidKernel> | undefined

async function load(): Promise<SolidKernel> {
  const library = await Module()
  library.setup()
  return solidKernelFrom(library)
}

export function loadSolidKernel(): Promise<SolidKernel> {
  loading ??= load()
  return loading
}
