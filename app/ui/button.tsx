import clsx from 'clsx'
import type { ComponentProps, ReactNode } from 'react'
import Link from './link'

export type ButtonLook = 'primary' | 'plain' | 'quiet' | 'stop'

const LOOK: Record<ButtonLook, string> = {
  primary: 'bg-accent text-on-accent hover:bg-accent-strong',
  plain: 'border border-hairline-strong bg-sheet text-ink hover:border-ink',
  quiet: 'text-accent underline decoration-1 underline-offset-4 hover:decoration-2 px-2!',
  stop: 'border-2 border-stop bg-sheet text-stop hover:bg-stop-wash',
}

/** Large enough for a dusty thumb: 44 px at least. */
export const buttonClass = (look: ButtonLook = 'plain', more?: string) =>
  clsx(
    'inline-flex min-h-11 items-center justify-center gap-2 rounded-control px-4 py-2 text-center font-medium leading-tight transition-colors disabled:opacity-55',
    LOOK[look],
    more,
  )

interface ButtonProps extends ComponentProps<'button'> {
  readonly look?: ButtonLook
  readonly children: ReactNode
}

export function Button({ look = 'plain', className, type = 'button', ...rest }: ButtonProps) {
  return <button type={type} className={buttonClass(look, className)} {...rest} />
}

interface ButtonLinkProps extends ComponentProps<typeof Link> {
  readonly look?: ButtonLook
}

export function ButtonLink({ look = 'plain', className, ...rest }: ButtonLinkProps) {
  return <Link className={buttonClass(look, className)} {...rest} />
}
