import { createElement, type ReactNode } from 'react'
import type { SvgNode } from '#lib/documents/sheet/svg-tree'

const element = (node: SvgNode | string, key: number): ReactNode =>
  typeof node === 'string'
    ? node
    : createElement(node.tag, { key, ...node.attributes }, ...node.children.map(element))

/** A sheet of drawings as part of a page, in the page's colours. */
export function SheetSvg({ tree, label, className }: { tree: SvgNode; label: string; className?: string }) {
  const { tag, attributes, children } = tree
  return createElement(tag, { ...attributes, 'aria-label': label, className }, ...children.map(element))
}
