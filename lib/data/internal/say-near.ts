import 'server-only'
import { nearInstantIn } from '#lib/format/instant'
import { shopRow } from './shop-row'

/** An instant as the shop's clock shows it, near ones as «today, 14:00». */
export async function sayNear(now: Date): Promise<(at: Date) => string> {
  return nearInstantIn((await shopRow()).timeZone, now)
}
