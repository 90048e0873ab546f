/** The worker that draws variants and works out what they come to (variant-run.ts). Started by variant-client.ts. */

import { browserDesign } from './browser-design'
import { loadSolidKernel } from './solid-kernel-page'
import { answerVariant, type VariantAnswer, type VariantAsk } from './variant-run'
import { answerMessages } from './worker-desk'

answerMessages<VariantAsk, VariantAnswer>((ask, tell) =>
  answerVariant(ask, loadSolidKernel, tell, browserDesign),
)
