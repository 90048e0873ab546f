/**
 * The worker that answers a page's questions about strength (strength-run.ts), one at a time, by the messages of
 * browser-worker.ts. Started by strength-client.ts.
 */
import { browserDesign } from './browser-design'
import { answerAsk, type StrengthAnswer, type StrengthAsk } from './strength-run'
import { answerMessages } from './worker-desk'

answerMessages<StrengthAsk, StrengthAnswer>(async (ask, tell) =>
  answerAsk(ask, tell, await browserDesign(ask.designId)),
)
