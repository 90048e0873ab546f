/** The part of the Khronos validator that the tests call; the package has no types of its own. */
declare module 'gltf-validator' {
  interface Report {
    readonly issues: {
      readonly numErrors: number
      readonly numWarnings: number
      /** Severity 0 error, 1 warning, 2 information, 3 hint. */
      readonly messages: readonly {
        readonly severity: number
        readonly code: string
        readonly message: string
      }[]
    }
  }
  export function validateBytes(bytes: Uint8Array): Promise<Report>
}
