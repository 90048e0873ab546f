/** Says that the web server answers; nothing else. */
export const dynamic = 'force-dynamic'

export const GET = () => Response.json({ ok: true })
