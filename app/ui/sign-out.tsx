'use client'

/** Signing out needs script that nothing else needs; it comes when it is pressed. */
export function SignOut({ className }: { readonly className?: string }) {
  const leave = async () => {
    const { signOut } = await import('next-auth/react')
    await signOut({ redirect: false })
    // Not where the server thinks it lives: a phone in the shop may know it by another name.
    window.location.assign('/sign-in')
  }
  return (
    <button type="button" className={className} onClick={leave}>
      Sign out
    </button>
  )
}
