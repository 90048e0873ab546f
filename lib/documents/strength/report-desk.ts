/**
 * Where a request has its strength report worked out and set: on a thread beside the web server, so that no request
 * waits on another's sums; a cancel ends the thread. One thread a process, questions in line.
 * Tests: tests/documents/strength/report-thread.test.ts
 */
import path from 'node:path'
import type { ParameterValues } from '#lib/core/design/model'
import type { StrengthOptions } from '#lib/core/statics/strength'
import type { BrowserWorker } from '#lib/engine/browser-worker'
import { nodeDesk } from '#lib/engine/node-worker'
import type { PdfContent } from '../pdf/content'
import type { PrintedStrength } from './report-content'

export interface ReportAsk {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly options: StrengthOptions
  readonly judgedFor: PrintedStrength['judgedFor']
  readonly facts: Pick<PdfContent, 'paper' | 'titleBlock' | 'madeAt'>
}

export type ReportDesk = BrowserWorker<ReportAsk, Uint8Array>

/** @param file the bundled report-thread */
export const reportDesk = (file: string): ReportDesk => nodeDesk<ReportAsk, Uint8Array>(file)

let desk: ReportDesk | undefined

/** The web server's own. */
export function ownReportDesk(): ReportDesk {
  desk ??= reportDesk(path.join(process.cwd(), 'build', 'report-thread.mjs'))
  return desk
}
