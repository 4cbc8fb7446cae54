// Starting by hand at a screen opens the first page; nothing else does.
import { expect, test } from 'vitest'
import { hasScreen } from '#src/cli/serving/open-browser.ts'
import { readServeOptions } from '#src/cli/serving/serve-options.ts'

test.each([
  ['a terminal on Windows', { isTerminal: true, platform: 'win32', env: {} }, true],
  ['a terminal on a Mac', { isTerminal: true, platform: 'darwin', env: {} }, true],
  ['a terminal on a Linux desk', { isTerminal: true, platform: 'linux', env: { DISPLAY: ':0' } }, true],
  ['the same under Wayland', { isTerminal: true, platform: 'linux', env: { WAYLAND_DISPLAY: 'w' } }, true],
  ['a Linux without a screen', { isTerminal: true, platform: 'linux', env: {} }, false],
  [
    'a terminal from afar',
    {
      isTerminal: true,
      platform: 'linux',
      env: { DISPLAY: ':0', SSH_CONNECTION: '192.0.2.7 1 192.0.2.8 22' },
    },
    false,
  ],
  ['a service', { isTerminal: false, platform: 'linux', env: { DISPLAY: ':0' } }, false],
  ['a build machine', { isTerminal: true, platform: 'darwin', env: { CI: '1' } }, false],
] as const)('%s', (_, from, opens) => {
  expect(hasScreen(from)).toBe(opens)
})

test('--no-open is an option of serve', () => {
  expect(readServeOptions(['--no-open']).noOpen).toBe(true)
  expect(readServeOptions([]).noOpen).toBe(false)
})
