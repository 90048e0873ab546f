/**
 * The worker that answers a page's questions about strength (strength-run.ts), one at a time, by the messages of
 * browser-worker.ts. Started by strength-client.ts.
 */
import { answerAsk } from './strength-run'
import { answerMessages } from './worker-desk'

answerMessages(answerAsk)
