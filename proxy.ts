import { type NextRequest, NextResponse } from 'next/server'

/** Tells pages where they are, so that signing in can lead back there. Whatever the caller said of it is overwritten. */
export function proxy(request: NextRequest) {
  const headers = new Headers(request.headers)
  headers.set('x-fellowbench-path', request.nextUrl.pathname + request.nextUrl.search)
  return NextResponse.next({ request: { headers } })
}

export const config = { matcher: ['/((?!_next/|api/|.*\\.[a-z0-9]+$).*)'] }
