/**
 * The operator's card in Spanish, as it is spoken in American shops. Figures are written as English writes them there:
 * a decimal point and a comma for thousands (Unicode CLDR, es-US); a date has the day first.
 */
import type { DesignChange, HoopingParams } from '../../advice/reason.js';
import { GSM_PER_OZ_YD2 } from '../../core/units.js';
import type { LaidUnderlay } from '../../stitch/laid-underlay.js';
import { type FindingCode, isFileCode } from '../../vetting/finding.js';
import { type CautionCode, gradeStep } from './en/risk.js';
import type { Worded } from './en/setup.js';
import { MATERIALS } from './es/materials.js';
import type { Grammar, Voice } from './voice.js';
import type { Phrases } from './words.js';

export const SPANISH: Grammar = {
  to: 'a',
  and: 'y',
  object: ['objeto', 'objetos'],
  more: (n) => `${n} más`,
};

/** Runs of objects that are named; the rest are counted. */
const MOST_RUNS = 40;

const laid: Readonly<Record<LaidUnderlay, string>> = {
  'center-run': 'una corrida al centro',
  'edge-run': 'una corrida de orilla',
  'edge-run+fill': 'una corrida de orilla y un relleno ligero',
  fill: 'un relleno ligero',
  zigzag: 'un zigzag',
  'double-zigzag': 'un zigzag doble',
};

const hooping: Worded<HoopingParams> = {
  'on-cap-frame': 'Ponga la gorra bien ajustada en su marco, con el estabilizador debajo de orilla a orilla.',
  'as-it-lies':
    'Ponga la tela en el bastidor tal como queda sobre la mesa: plana, sin estirarla en ninguna dirección.',
  'flat-and-firm': 'Ponga la tela en el bastidor plana y firme, derecha con su hilo.',
  straight: 'Ponga la tela en el bastidor plana, derecha con su hilo.',
  'smooth-pile':
    'Alise el pelo hacia un solo lado y apriete el bastidor solo lo necesario: el pelo que el bastidor aplasta no se levanta.',
  'turn-backing':
    'Gire el estabilizador respecto a la prenda, como se indica aquí, antes de ponerlo en el bastidor.',
  'turn-others': ({ sheets }) =>
    `Ponga la primera hoja derecha con la prenda y gire ${sheets === 2 ? 'la siguiente como se indica aquí: así las dos sostienen' : 'las demás como se indica aquí: así sostienen'} en todas las direcciones.`,
  'hoop-together': 'Ponga todas las hojas en el bastidor junto con la tela, ninguna suelta por debajo.',
  'tear-backing': 'Rasgue el estabilizador a lo largo del bordado, deteniendo las puntadas con el pulgar.',
  'tear-film-behind':
    'Rasgue la película que sobra por detrás; la que queda debajo de las puntadas se va al enjuagar.',
  'pick-from-back': 'Descosa las puntadas por el revés: la segunda hoja protege la tela.',
  'trim-backing': ({ leftMm }, say) =>
    `Recorte el estabilizador a unos ${say.length(leftMm)} del bordado, con las hojas de la tijera lejos de la tela y de usted.`,
  'topping-last': ({ removedBy }) =>
    removedBy === 'water'
      ? 'Ponga la película de encima al final. Rásguela al terminar y quite lo que quede con un paño húmedo o en la primera lavada.'
      : 'Ponga la película de encima al final. Quítela con calor como indica su fabricante; pruebe primero en un lugar escondido.',
  'hoop-marks-for-good':
    'El bastidor puede marcar este material para siempre: acolchónelo, o ponga en el bastidor solo el estabilizador y sujete la prenda sobre él. Pruebe primero en un retazo.',
  'hoop-marks': ({ washable }) =>
    washable
      ? 'Quite las marcas del bastidor con almidón en aerosol, no con agua.'
      : 'Quite las marcas del bastidor con almidón en aerosol, no con agua; pruebe primero en un lugar escondido.',
};

const changes: Readonly<Record<DesignChange, string>> = {
  width:
    'Pida que las columnas de satín se hagan más angostas, se partan, o se rellenen las formas: las puntadas anchas son las que más jalan.',
  spacing: 'Pida un poco más de separación entre puntadas: menos hilos juntos jalan menos.',
  underlay: 'Pida una base más ligera: sus propias puntadas también jalan.',
  layers: 'Pida que se quite el bordado que queda debajo de otro bordado: las capas se suman.',
  fabric: 'Bórdelo en una tela más firme, o pida el diseño más chico o más ligero para esta.',
  laundering:
    'Avise al cliente que se notará después de lavar, porque el hilo y la tela encogen: lavar a mano y secar extendido.',
  hooping: 'Ponga la tela en el bastidor sin estirarla.',
};

const cautions: Readonly<Record<CautionCode, string>> = {
  'cap-frame':
    'Trace el contorno de la gorra con la aguja arriba antes de bordar, sin meter las manos: una aguja que pega en el marco se hace pedazos.',
  'holes-stay':
    'Los agujeros de la aguja quedan para siempre en este material: las puntadas que se descosen los dejan a la vista. Borde una prueba en un retazo antes que en la prenda.',
  heat: 'La tela que no se debe mojar lleva una película que se quita con calor: quema la piel y chamusca la fibra; pruebe en un retazo.',
  'not-for-washing': 'Esta tela no es para lavar: los datos después de lavar son solo para comparar.',
  skin: 'Este estabilizador queda contra la piel: cúbralo en ropa de niños; los reglamentos locales para ropa de dormir de niños van primero.',
};

const grades = ['queda plano', 'leve', 'se nota', 'malo'] as const;

/** What stops a job, by kind of finding. */
const failure: Readonly<Record<Exclude<FindingCode, `file-${string}` | `table-${string}`>, string>> = {
  'no-stitches': 'no tiene puntadas',
  'does-not-fit-hoop': 'no cabe en el bastidor',
  'little-room-in-hoop': 'casi no cabe en el bastidor',
  'does-not-fit-place': 'demasiado grande para el lugar',
  'satin-too-wide': 'satín demasiado ancho',
  'satin-too-narrow': 'satín demasiado angosto',
  'wide-satin-heavy-underlay': 'la base también jala',
  'wide-satin-no-underlay': 'sin base',
  'satin-over-foam': 'hecho para espuma',
  'satin-too-dense': 'satín demasiado denso',
  'satin-too-open': 'satín demasiado abierto',
  'fill-too-dense': 'relleno demasiado denso',
  'fill-too-open': 'relleno demasiado abierto',
  'fill-too-many-points': 'demasiadas perforaciones',
  'dense-place': 'un punto muy denso',
  'layers-stacked': 'capas encimadas',
  'needle-points-piled': 'perforaciones amontonadas',
  'stitch-too-short': 'puntadas demasiado cortas',
  'stitch-too-long': 'puntadas demasiado largas',
  'jump-not-trimmed': 'salto sin corte',
  'missing-lock': 'sin remate',
  'no-trims': 'sin cortes',
  'lettering-too-small': 'letras demasiado chicas',
};

const namesFound = (codes: readonly FindingCode[], say: Voice): string =>
  say.list([...new Set(codes.map((code) => (isFileCode(code) ? 'archivo dañado o raro' : failure[code])))]);

const setup: Phrases['setup'] = {
  laid,
  hooping,
  changes,
  cautions,
  material: ({ name }) => MATERIALS[name] ?? name,
  garmentLabel: 'prenda',
  // What a shop says of a garment of its own stands in its own words, in its profile.
  garment: ({ name, madeOf, takenAs }) => {
    const named = takenAs === null ? name : `${name} (${takenAs})`;
    return madeOf in MATERIALS ? `${named}: ${MATERIALS[madeOf]}` : named;
  },
  anotherGarment: (_, say) =>
    `Si la suya es de otra tela, ${say.typed('use --fabric ask', 'conteste las cuatro preguntas sobre ella')}.`,
  wovenSheet: ({ sheetName, massGPerM2 }, say) =>
    `${MATERIALS[sheetName] ?? sheetName}: hoja tejida delgada que se queda y se recorta, de unas ${say.plain(massGPerM2 / GSM_PER_OZ_YD2, 1)} oz/yd² (${say.count(massGPerM2)} g/m²), no de tela sin tejer`,
  none: 'no lleva',
  capOrder: ({ objects }, say) =>
    `Las gorras se bordan de la visera hacia arriba y de la costura del centro hacia afuera; este archivo no, primero en el ${say.objects(objects.slice(0, 1), 1)}, y puede formar un pliegue al frente. Pida ese orden, o vigile bien la primera.`,
  traceInHoop: ({ roomMm }, say) =>
    `${Number(say.bare(roomMm)) === 0 ? 'no queda nada' : `quedan solo ${say.length(roomMm)}`} de su campo por lado: céntrelo bien y trace primero el contorno`,
  grade: ({ grade }) => grades[gradeStep(grade)],
  washes: ({ washes }, say) => (washes === 1 ? 'una lavada' : say.counted(washes, 'lavada')),
  standard: ({ grade, washedGrade, washes }, say) => {
    if (washes === 0) return `grado ${grade} recién bordado`;
    const after = `después de ${setup.washes({ washes }, say)}`;
    return grade === washedGrade
      ? `grado ${grade}, nuevo y ${after}`
      : `grado ${grade} nuevo y grado ${washedGrade} ${after}`;
  },
  failures: ({ codes }, say) => `NO BORDE el archivo como está: ${namesFound(codes, say)}.`,
  warnings: ({ codes }, say) =>
    `REVISE PRIMERO: pida que revisen el archivo antes de poner el bastidor: ${namesFound(codes, say)}.`,
};

const card: Phrases['card'] = {
  pageTitle: ({ file }) => `Hoja de bordado de ${file}`,
  skip: 'Ir al contenido',
  title: ({ file, fabric }) => `${file} en ${fabric}`,
  job: {
    order: ({ text }) => `Pedido ${text}`,
    customer: ({ text }) => `para ${text}`,
    quantity: ({ n }, say) => say.counted(n, 'pieza'),
    garmentColor: ({ text }) => `prenda ${text}`,
    due: ({ text }) => `entrega ${text}`,
    remarks: ({ text }) => `Notas: ${text}`,
  },
  stitches: ({ n }, say) => say.counted(n, 'puntada'),
  machineTime: ({ seconds }, say) => `unos ${say.time(seconds)} de máquina`,
  threads: ({ topMm, bobbinMm }, say) =>
    `hilo de arriba ${say.thread(topMm)}, bobina ${say.thread(bobbinMm)}`,
  trims: ({ n }, say) => say.counted(n, 'corte'),
  cost: ({ total, currency }, say) => `costo por pieza sin mano de obra ${say.money(total, currency)}`,
  alerts: {
    notWhole: ({ drawn, left }, say) =>
      `EL DIBUJO NO ESTÁ COMPLETO: muestra las primeras ${say.counted(drawn, 'puntada')}, y faltan ${say.count(left)} más.`,
    wrongHoop:
      'NO BORDE CON ESTE BASTIDOR: el diseño es más grande que el campo del bastidor indicado, y la aguja pegaría en el marco.',
    notGoodEnough: ({ standard, changes: lines }) =>
      [
        `REVISE PRIMERO: ningún estabilizador cumple del todo lo que pide el taller (${standard}); este es el que más se acerca.`,
        ...lines,
      ].join(' '),
    mayMiss: ({ standard }) =>
      `REVISE PRIMERO: puede verse un poco más de lo que pide el taller (${standard}). Borde una prueba.`,
    againstRule: 'REVISE PRIMERO: en el oficio no se usa este estabilizador aquí.',
    changedFile: ({ to, objects }, say) =>
      `SE NECESITA EL ARCHIVO CAMBIADO: ${laid[to]} debajo ${objects.length === 1 ? 'del' : 'de los'} ${say.objects(objects, MOST_RUNS)} en lugar de la base de este archivo. Las puntadas y los puntos de inicio de esta hoja son los de este archivo.`,
  },
  moreSheets: ({ sheets }) =>
    sheets === 2
      ? 'DOS HOJAS: el dibujo a tamaño real está en la segunda.'
      : `${sheets} HOJAS: el dibujo a tamaño real está en las hojas 2 a ${sheets}, que se pegan con cinta.`,
  sheet: ({ title, sheet, of }) => `${title}: hoja ${sheet} de ${of}`,
  turnSheet: 'Gire la hoja hasta que ARRIBA quede arriba.',
  parts: {
    left: 'Mitad izquierda del dibujo.',
    right: 'Mitad derecha del dibujo.',
    upper: 'Mitad de arriba del dibujo.',
    lower: 'Mitad de abajo del dibujo.',
    'upper-left': 'Cuarto de arriba a la izquierda del dibujo.',
    'upper-right': 'Cuarto de arriba a la derecha del dibujo.',
    'lower-left': 'Cuarto de abajo a la izquierda del dibujo.',
    'lower-right': 'Cuarto de abajo a la derecha del dibujo.',
  },
  joining:
    'Ponga las hojas una sobre otra hasta que coincidan las líneas continuas y cada círculo quede sobre el de su letra. Luego péguelas con cinta.',
  pictureOf: ({ reduction }) =>
    reduction === 1 ? 'El diseño a tamaño real' : `El diseño a escala de 1 a ${reduction}`,
  riskPictureOf: 'Mapa de las arrugas previstas alrededor del bordado',
  hoopPictureOf: ({ reduction }) => `El diseño en su bastidor a escala de 1 a ${reduction}`,
  top: 'ARRIBA',
  grain: 'hilo',
  scale: ({ reduction }) =>
    reduction === 1
      ? 'Tamaño real, si se imprime al 100 %:'
      : `NO ES TAMAÑO REAL: dibujado a 1:${reduction}.`,
  bars: ({ reduction }) =>
    reduction === 1
      ? 'las barras deben medir lo que dicen.'
      : 'Las barras son exactas si se imprime al 100 %.',
  origin: ({ right, up }, say) => {
    const away = [
      ...(right === null
        ? []
        : [`${say.measured(Math.abs(right))} a la ${right < 0 ? 'izquierda' : 'derecha'}`]),
      ...(up === null ? [] : [`${say.measured(Math.abs(up))} hacia ${up < 0 ? 'abajo' : 'arriba'}`]),
    ];
    return away.length === 0
      ? 'Cruz: centro del diseño y origen del archivo.'
      : `Cruz: centro del diseño. Círculo: origen del archivo, ${away.join(' y ')} de ahí; guíese por el punto donde empieza su máquina.`;
  },
  fieldDashed: 'Línea cortada: campo del bastidor, con el diseño centrado.',
  startsNumbered: 'Números: donde empieza cada color.',
  hoopAt: ({ reduction }) => `Bastidor a 1:${reduction}`,
  hoopInset: ', su campo en línea cortada, el diseño centrado',
  colors: {
    title: 'Colores',
    order: 'Orden de bordado',
    part: ({ first, last }) => `Orden de bordado, ${first} a ${last}`,
    number: 'n.º',
    stitches: 'puntadas',
    time: 'tiempo',
    needle: 'aguja',
    thread: 'color de hilo',
    unnamed: 'Un archivo de puntadas no guarda los colores: anote aguja y color.',
    share: ({ share }, say) => (share < 0.005 ? 'menos de 1 %' : say.share(share)),
    more: ({ left }, say) => `y ${say.count(left)} más: vea la lista de la máquina.`,
    stop: ({ after, left }, say) =>
      `■ PARO tras ${after.map((n) => say.count(n)).join(', ')}${left > 0 ? ` y ${say.count(left)} más` : ''}`,
  },
  risk: {
    title: 'Arrugas previstas',
    asSewn: 'Recién bordado',
    washed: ({ washes }, say) => `Después de ${setup.washes({ washes }, say)}`,
    looks: ({ when, grade, wrinkleMm, lowestMm }, say) =>
      `${when}: ${setup.grade({ grade }, say)}, grado ${grade}, ${
        wrinkleMm < lowestMm
          ? `casi sin arrugas (menos de ${say.figure(lowestMm)} en promedio)`
          : `arrugas de unos ${say.figure(wrinkleMm)} de alto`
      }.`,
    note: ({ washed }, say) =>
      `Es un cálculo: borde una prueba. Alturas en ${say.units === 'mm' ? 'mm' : 'pulgadas'}${washed ? ', ya lavado' : ''}:`,
    from: ({ mm }, say) => `${say.bare(mm)} y más`,
    between: ({ from, to }, say) => `${say.bare(from)} a ${say.bare(to)}`,
    lower: 'menos',
    flat: 'todo plano',
  },
  layers: {
    title: 'Capas, del lado de la aguja hacia abajo',
    topping: 'película',
    toppingLast: ({ name }) => `${name}, se pone al final`,
    garment: 'prenda',
    backing: 'estabilizador',
    backingNumber: ({ n }) => `estabilizador ${n}`,
    grain: ({ name, grain }) => `${name}, hilo de la tela ${grain}`,
    upright: 'vertical',
    level: 'horizontal',
    leaning: ({ deg, to }, say) =>
      `inclinado a la ${to === 'left' ? 'izquierda' : 'derecha'}, ${say.plain(deg, 1)}° desde la horizontal`,
    straight: 'derecho (0°)',
    quarter: 'un cuarto de vuelta (90°)',
    turned: ({ deg, clockwise }, say) =>
      `girado ${say.plain(deg, 1)}° ${clockwise ? 'como el reloj' : 'contra el reloj'}`,
    note: ({ sheets }, say) =>
      `${sheets === 0 ? 'Sin estabilizador' : `${say.counted(sheets, 'hoja')} de estabilizador`}. El rayado corre a lo largo de la hoja; los giros se ven de frente.`,
  },
  setup: {
    title: 'Preparación',
    needle: 'aguja',
    speed: 'velocidad',
    speedAtMost: ({ speedSpm }, say) => `${say.count(speedSpm)} puntadas por minuto como máximo`,
    topping: 'película',
    thread: 'hilo',
    hoop: 'bastidor',
    noHoop:
      'NINGÚN BASTIDOR DE LA LISTA ALCANZA PARA ESTE DISEÑO: use uno más grande, o pida el diseño más chico o partido en dos colocaciones',
    field: ({ name, round, widthMm, heightMm }, say) => {
      const field = round
        ? `${say.measured(widthMm)} de diámetro`
        : `${say.measured(widthMm)} por ${say.measured(heightMm)}`;
      return `${name}; la aguja alcanza ${field}, o lo que diga el manual de la máquina`;
    },
  },
  hoopingTitle: 'Bastidor y acabado',
  checksTitle: 'Antes de empezar',
  checks: {
    file: 'Archivo correcto y al derecho: la pantalla muestra lo mismo que el dibujo.',
    threads: 'Hilos en el orden de la tabla, uno en cada aguja que se usa.',
    bobbin: 'Bobina con hilo suficiente para la pieza y bien puesta; su tensión probada.',
    needle: ({ name }) =>
      `Aguja ${name} puesta: derecha, sin daño, hasta arriba en su sujetador. Máquina apagada para esto.`,
    layers: {
      garment: 'Capas como en el dibujo, el bastidor sujeta el estabilizador por todos lados.',
      cap: 'Capas como en el dibujo, el estabilizador debajo de todo el frente, sujeto por el marco.',
      flat: 'Capas como en el dibujo, el bastidor sujeta el estabilizador por todos lados.',
    },
    hoop: {
      garment:
        'Bastidor cerrado y asegurado, tela plana; bastidor y prenda libres del brazo, sin manga ni doblez por debajo.',
      cap: 'Gorra asegurada en su marco, costura en la línea del centro, visera y correa libres del brazo, nada doblado por debajo.',
      flat: 'Bastidor cerrado y asegurado, tela plana; bastidor y pieza libres del brazo, sin asa, orilla ni doblez por debajo.',
    },
    trace: 'Contorno trazado con el bastidor, agujas arriba, sin meter las manos: no toca nada.',
    test: {
      garment:
        'Primera pieza bordada en un retazo de la misma tela y estabilizador, revisada y calificada abajo.',
      cap: 'Primera pieza bordada en una gorra de sobra con el mismo estabilizador, revisada y calificada abajo.',
      flat: 'Primera pieza bordada en un retazo de la misma tela y estabilizador, revisada y calificada abajo.',
    },
  },
  cautionsTitle: 'Cuidado',
  cautions: {
    hands: 'Manos, pelo, cordones y ropa suelta lejos de las agujas y del bastidor en movimiento.',
    off: 'Apague la máquina antes de cambiar una aguja o de enhebrar cerca de una.',
    shatter:
      'Una aguja que pega en el bastidor se hace pedazos: trace después de cada cambio de bastidor, archivo o posición; use lentes de protección.',
    picking: 'Al descoser: corte lejos de las manos y del cuerpo, y nunca hacia el derecho de la tela.',
    heat: 'Las planchas y herramientas de calor queman: úselas como indica su fabricante.',
    children: {
      garment:
        'Ropa de niños, ropa de dormir, inflamabilidad, piezas chicas: los reglamentos locales van primero.',
      cap: 'Gorras de niños, piezas chicas: los reglamentos locales van primero.',
      flat: 'Para bebés y niños chicos: los reglamentos locales sobre hilos sueltos y piezas chicas van primero.',
    },
    manual:
      'El manual de la máquina, y quien está capacitado y autorizado para usarla, van antes que esta hoja.',
  },
  record: {
    title: 'Prueba bordada',
    operator: 'Operador(a)',
    date: 'Fecha (día/mes/año)',
    garment: 'Prenda, lote',
    asSewn: 'Grado recién bordado:',
    after: 'Después de',
    washes: 'lavadas:',
    remarks: 'Notas',
    log: 'Encierre un grado: 5 liso, 1 muy arrugado. Para el registro de pruebas del taller, como se planea aquí:',
  },
};

/** What the card needs. */
export const ES: Pick<Phrases, 'card' | 'setup'> = { card, setup };
