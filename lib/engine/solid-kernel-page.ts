/**
 * The solid kernel in a page or a worker: the library and its WebAssembly come from /wasm, on first use, so that
 * no page carries them before it shows a model. `lib/start/postinstall.mjs` puts both files there.
 */
import type { ManifoldToplevel } from 'manifold-3d'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { solidKernelFrom } from './solid-kernel'

type Factory = (options: { locateFile: () => string }) => Promise<ManifoldToplevel>

let loading: Promise<SolidKernel> | undefined

async function load(): Promise<SolidKernel> {
  const at = (file: string): string => new URL(`/wasm/${file}`, globalThis.location.origin).href
  const { default: factory } = (await import(
    /* webpackIgnore: true */ /* turbopackIgnore: true */ at('manifold.js')
  )) as { default: Factory }
  const library = await factory({ locateFile: () => at('manifold.wasm') })
  library.setup()
  return solidKernelFrom(library)
}

/** A failed load is tried again on the next call. */
export function loadSolidKernel(): Promise<SolidKernel> {
  loading ??= load().catch((error: unknown) => {
    loading = undefined
    throw error
  })
  return loading
}
