// The first page opens by itself for whoever starts Dooryard by hand at a screen; a service, a test or a far terminal opens nothing.
interface StartedFrom {
  /** Whether a person reads what the command prints. */
  isTerminal: boolean
  platform: NodeJS.Platform
  env: Readonly<Record<string, string | undefined>>
}

/** Whether a browser can be expected to come up on the screen of the person who started this. */
export function hasScreen({ isTerminal, platform, env }: StartedFrom): boolean {
  if (!isTerminal || env.CI || env.SSH_CONNECTION) return false
  return platform === 'win32' || platform === 'darwin' || Boolean(env.DISPLAY || env.WAYLAND_DISPLAY)
}

/** Opens an address in the browser that the person uses; false where none came up. Loaded only when asked: a start stays quick. */
export async function openInBrowser(address: string): Promise<boolean> {
  try {
    const { default: open } = await import('open')
    await open(address)
    return true
  } catch {
    return false
  }
}
