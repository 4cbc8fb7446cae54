// How files are written: what parts the columns, quotation marks, letters, line ends, and other languages.
import iconv from 'iconv-lite'
import { rows, type Shape } from './shape.ts'

const feed = ['2025-01-13', -4567, 'HOLLOW FEED MILL'] as const
const deposit = ['2025-01-28', 30_000, 'MARKET DEPOSIT'] as const
const plain = rows(
  'Date,Description,Amount',
  '01/13/2025,HOLLOW FEED MILL,-45.67',
  '01/28/2025,MARKET DEPOSIT,300.00',
)

export const writingShapes: readonly Shape[] = [
  { name: 'tabs between the columns', file: plain.replaceAll(',', '\t'), lines: [feed, deposit] },
  { name: 'bars between the columns', file: plain.replaceAll(',', '|'), lines: [feed, deposit] },
  { name: 'semicolons between the columns', file: plain.replaceAll(',', ';'), lines: [feed, deposit] },
  {
    name: 'a first line that says what parts the columns',
    file: `sep=,\n${plain}`,
    lines: [feed, deposit],
    leftOut: [1],
  },
  {
    name: 'UTF-16 with tabs, as a spreadsheet saves it',
    file: iconv.encode(plain.replaceAll(',', '\t').replaceAll('\n', '\r\n'), 'utf-16le', { addBOM: true }),
    lines: [feed, deposit],
  },
  {
    name: 'a byte-order mark and lines that end with CR LF',
    file: `\ufeff${plain.replaceAll('\n', '\r\n')}`,
    lines: [feed, deposit],
  },
  { name: 'lines that end with CR alone', file: plain.replaceAll('\n', '\r'), lines: [feed, deposit] },
  {
    name: 'letters of Windows beyond ASCII',
    file: iconv.encode(plain.replace('HOLLOW FEED MILL', 'CAFÉ PEÑA'), 'windows-1252'),
    lines: [['2025-01-13', -4567, 'CAFÉ PEÑA'], deposit],
  },
  {
    name: 'line breaks, commas and quotation marks within a text',
    file: rows(
      '"Date","Description","Amount"',
      '"01/13/2025","HOLLOW FEED',
      'MILL","-45.67"',
      '"01/28/2025","MARKET ""DEPOSIT"", SATURDAY","300.00"',
    ),
    lines: [feed, ['2025-01-28', 30_000, 'MARKET "DEPOSIT", SATURDAY']],
  },
  {
    name: 'numbers kept from a spreadsheet by an equals sign, blanks around everything',
    file: rows(
      'Account , Date , Description , Amount ',
      '="00401177" , 01/13/2025 , HOLLOW  FEED MILL , -45.67 ',
      '="00401177" , 01/28/2025 , MARKET DEPOSIT , 300.00 ',
    ),
    lines: [feed, deposit],
  },
  {
    name: 'an empty column at the end of each row but the headings',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-45.67,',
      '01/28/2025,MARKET DEPOSIT,300.00,',
    ),
    lines: [feed, deposit],
  },
  {
    name: 'German: points in dates and between thousands, a comma before the cents',
    file: rows(
      'Buchungstag;Wertstellung;Verwendungszweck;Betrag;Saldo;Währung',
      '13.01.2025;14.01.2025;HOFLADEN FUTTER;-1.045,67;954,33;EUR',
      '28.01.2025;28.01.2025;MARKT;300,00;1.254,33;EUR',
      'Endsaldo;;;;1.254,33;EUR',
    ),
    lines: [
      ['2025-01-13', -104_567, 'HOFLADEN FUTTER'],
      ['2025-01-28', 30_000, 'MARKT'],
    ],
    leftOut: [4],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'French: débit and crédit, a blank between thousands',
    file: rows(
      'Date;Libellé;Débit;Crédit',
      '13/01/2025;MOULIN;-1\u00a0045,67;',
      '28/01/2025;MARCHÉ;;300,00',
      'Solde;;;1\u00a0254,33',
    ),
    lines: [
      ['2025-01-13', -104_567, 'MOULIN'],
      ['2025-01-28', 30_000, 'MARCHÉ'],
    ],
    leftOut: [4],
  },
  {
    name: 'Spanish: fecha, concepto, importe',
    file: rows(
      'Fecha;Concepto;Importe;Saldo',
      '13/01/2025;MOLINO;-45,67;954,33',
      '28/01/2025;MERCADO;300,00;1.254,33',
    ),
    lines: [
      ['2025-01-13', -4567, 'MOLINO'],
      ['2025-01-28', 30_000, 'MERCADO'],
    ],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'Dutch: af and bij',
    file: rows(
      '"Datum","Naam / Omschrijving","Rekening","Af Bij","Bedrag (EUR)"',
      '"20250113","MOLEN","NL00TARN0000401177","Af","45,67"',
      '"20250128","MARKT","NL00TARN0000401177","Bij","300,00"',
    ),
    lines: [
      ['2025-01-13', -4567, 'MOLEN'],
      ['2025-01-28', 30_000, 'MARKT'],
    ],
  },
  {
    name: 'apostrophes between thousands',
    file: rows(
      'Datum;Text;Belastung;Gutschrift',
      "13.01.2025;MÜHLE;1'045.67;",
      "28.01.2025;MARKT;;12'300.00",
    ),
    lines: [
      ['2025-01-13', -104_567, 'MÜHLE'],
      ['2025-01-28', 1_230_000, 'MARKT'],
    ],
  },
]
