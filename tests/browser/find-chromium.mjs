// Finds Chromium for the browser tests, installs Debian's package when root, or says in one line what to install. Its headless shell
// goes first: without windows, tabs and their animations a page takes half the processor time.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const places = [
  process.env.CHROMIUM,
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]

export const findChromium = () => places.find((place) => place && existsSync(place))

const isRoot = process.getuid?.() === 0

/** Beside an installed Chromium its shell of the same version, so that nothing is upgraded; without one the shell, or what there is. */
const install = () => {
  if (!isRoot || !existsSync('/usr/bin/apt-get')) return
  console.log('Installing Chromium’s headless shell from the Debian packages for the browser tests …')
  const asked = ['-W', '-f', '$' + '{Version}', 'chromium']
  const { stdout } = spawnSync('dpkg-query', asked, { encoding: 'utf8' })
  const shell = `chromium-headless-shell${stdout ? `=${stdout}` : ''}`
  if (apt('install', shell)) return
  apt('update', '-o', 'Acquire::Retries=0', '-o', 'Acquire::http::Timeout=10')
  if (!apt('install', shell) && !findChromium()) apt('install', 'chromium')
}

const apt = (what, ...packages) =>
  spawnSync('apt-get', [what, '-y', '-qq', '--no-install-recommends', ...packages], {
    stdio: 'ignore',
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  }).status === 0

if (process.argv[1] === import.meta.filename) {
  if (!/headless/.test(findChromium() ?? '') && !process.env.CHROMIUM) install()
  if (!findChromium()) {
    console.error(
      'The browser tests need Chromium: install it (Debian: apt-get install chromium) or set CHROMIUM to its path.',
    )
    process.exit(1)
  }
}
