/**
 * All wording, in the plain Spanish of the refrigeration trade; entry by entry what `english.ts` says.
 * Words of choice: evacuación (pull-down), retención (hold), subida (rise), aislar (to valve off), lastre
 * de gas (ballast), obús (valve core), práctica (rehearsal), diagnóstico (call), dictamen (verdict).
 */
import type { Wording } from './english.ts';
import { pluralsIn } from './plural.ts';

const many = pluralsIn('es');

export const spanish: Wording = {
  amounts: {
    units: { micron: 'micrones', Pa: 'Pa', mbar: 'mbar', Torr: 'Torr', inHg: 'inHg' },
    unitOfOne: { micron: 'micrón', Pa: 'Pa', mbar: 'mbar', Torr: 'Torr', inHg: 'inHg' },
    unknown: 'desconocido',
    notMeasured: 'sin medir',
    perMinute: ({ amount }) => `${amount} por minuto`,
    between: ({ low, high }) => `entre ${low} y ${high}`,
    about: ({ amount }) => `aprox. ${amount}`,
    aboutBetween: ({ about, low, high }) => `aprox. ${about}, entre ${low} y ${high}`,
    noMoreThan: ({ most }) => `no más de ${most}`,
    range: ({ about, low, high }) => `${about} (${low} a ${high})`,
    fromTo: ({ low, high }) => `${low} a ${high}`,
    atLeastWithoutEnd: ({ least }) => `al menos ${least}, sin límite superior`,
    giveOrTakeLess: ({ amount }) => `con menos de ${amount} de margen`,
    aMinute: 'un minuto',
    nothingRises: 'nada sube',
    notToldApart: 'aún no se distingue',
  },

  header: {
    rehearsal: 'Práctica',
    sheet: 'Hoja de trabajo',
    menu: 'Menú',
    batteryLow: ({ percent }) => `${percent}, baja`,
    look: ({ shown, next }) => `Aspecto: ${shown}. Cambiar a ${next}.`,
  },

  connection: {
    connecting: 'Conectando con el puente',
    catchingUp: 'Poniéndose al día con el registro',
    live: 'Conectado',
    lost: ({ since }) => `Conexión con el puente perdida desde ${since}`,
    lostRemedy:
      'El registro continúa mientras el puente funcione. Esta página lo intenta de nuevo por sí sola; ' +
      'si tarda, arranque el puente con: npm start',
    otherVersion: 'La página y el puente son de versiones distintas',
    otherVersionRemedy:
      'A esta página no llega ninguna lectura. Cierre todas sus ventanas y ábrala de nuevo; ' +
      'si sigue diciendo lo mismo, pare el puente y arránquelo otra vez con: npm start',
    phases: {
      starting: 'arrancando',
      searching: 'buscando un sensor',
      found: 'encontrado, espera su turno',
      connecting: 'conectando',
      live: 'en vivo',
      weak: 'en vivo, señal débil',
      backfilling: 'en vivo, recuperando lo perdido',
      stale: 'en silencio',
      lost: 'perdido',
      gone: 'fuera de alcance',
      paused: 'en pausa',
      finished: 'terminado',
      unavailable: 'no disponible',
    },
    fetching: ({ count }) =>
      `en vivo, recuperando ${count} ${many(count, { one: 'lectura perdida', other: 'lecturas perdidas' })}`,
    since: ({ phase, since }) => `${phase} desde ${since}`,
    notKept: 'fuera del registro',
    bluetooth: 'Bluetooth',
    sensor: 'Sensor',
    atRest: {
      searching: 'Buscando un sensor',
      found: 'Sensor encontrado',
      connecting: 'Conectando con el sensor',
      connected: 'El sensor está conectado; se espera su primera lectura',
      lost: 'El sensor no está conectado',
      unavailable: 'No se oye ningún sensor',
      starting: 'Bluetooth está arrancando',
    },
    unreachable: 'El puente no responde. ¿Sigue en marcha?',
    notUnderstood: 'No se entendió la respuesta del puente. Recargue la página.',
    languageMissing: ({ language }) =>
      `No se pudo obtener «${language}» del puente y la página sigue en el idioma de ahora. Recárguela para intentarlo de nuevo.`,
    close: 'Cerrar',
    anotherRuns: 'Hay otra grabación en marcha. Sus avisos le siguen llamando.',
    showIt: 'Mostrarla',
  },

  record: {
    waiting: ({ waiting }) => `Lecturas que esperan en memoria y no están en la curva: ${waiting}.`,
    refused: ({ waiting, refused }) =>
      `Lecturas que esperan en memoria: ${waiting}; no guardadas: ${refused}.`,
    keptAside: ({ file }) =>
      `Mientras tanto las lecturas se guardan en un archivo al lado y no están en la curva: ${file}`,
    salvaged: ({ saved, atLeast, otherSaved, otherAtLeast, folder }) =>
      `Salvado: ${saved} de al menos ${atLeast} lecturas, ${otherSaved} de al menos ${otherAtLeast} de las demás anotaciones. Los archivos dañados están en ${folder}`,
  },

  office: {
    unreached: ({ since, waiting }) =>
      `Sin contacto con la oficina desde ${since}. Lecturas por enviar: ${waiting}.`,
  },

  firstMinute: {
    toSensor: 'Con sensor',
    none: 'No se busca ningún sensor',
    onItsOwn:
      'Encienda el sensor, cerca de aquí. La grabación empieza sola con su primera lectura.',
    toRehearsal: 'Sin sensor',
    learn: 'Practicar con un trabajo simulado',
    firstJob:
      'La bomba hace vacío en la cámara fría de una panadería, veinte veces más rápido que en la realidad. No hay nada conectado y nada puede romperse: observe el número y diga después qué fallaba, si algo fallaba.',
    first: 'Empezar esta práctica',
    others: 'Elegir otro trabajo',
    otherwise: 'O bien',
  },
  bluetoothHelp: {
    adapter: {
      linux: [
        'Enchufe un adaptador Bluetooth, 4.0 o posterior. «bluetoothctl list» muestra si se detecta.',
        'Uno integrado puede estar bloqueado: «rfkill list» y luego «rfkill unblock bluetooth».',
        'En una máquina virtual o un contenedor, páseles el adaptador.',
      ],
      macos: [
        'Ajustes del Sistema, Bluetooth: actívelo.',
        'Si no aparece ahí, reinicie el ordenador.',
      ],
      windows: [
        'Configuración, Bluetooth y dispositivos: actívelo.',
        'Un ordenador de mesa puede no tenerlo: enchufe un adaptador, 4.0 o posterior.',
      ],
      other: ['Enchufe un adaptador Bluetooth, 4.0 o posterior.'],
    },
    off: {
      linux: ['Active Bluetooth en los ajustes, o ejecute «bluetoothctl power on».'],
      macos: ['Ajustes del Sistema, Bluetooth: actívelo.'],
      windows: ['Configuración, Bluetooth y dispositivos: actívelo. Compruebe el modo avión.'],
      other: ['Active Bluetooth en los ajustes de este ordenador.'],
    },
    permission: {
      linux: [
        'Detenga el puente con Ctrl+C.',
        'Ejecute una vez: sudo setcap cap_net_raw+eip $(readlink -f $(which node))',
        'Arránquelo de nuevo: npm start',
      ],
      macos: [
        'Ajustes del Sistema, Privacidad y seguridad, Bluetooth: autorice el terminal en el que corre el puente.',
        'Arranque de nuevo el puente: npm start',
      ],
      windows: [
        'Configuración, Privacidad y seguridad, Radios: permita que las aplicaciones de escritorio las usen.',
        'Arranque de nuevo el puente: npm start',
      ],
      other: ['Permita usar Bluetooth al programa que ejecuta el puente.'],
    },
  },
  problems: {
    no_bluetooth: {
      meaning: 'Este ordenador no ofrece Bluetooth a los programas.',
      remedy:
        'Enchufe un adaptador Bluetooth 4.0 o posterior, o use un ordenador que lo tenga. Para practicar no hace falta.',
    },
    no_adapter: {
      meaning: 'No hay adaptador Bluetooth.',
      remedy: 'Enchufe un adaptador Bluetooth. Se busca de nuevo cada pocos segundos.',
    },
    adapter_off: {
      meaning: 'El adaptador Bluetooth está apagado.',
      remedy: 'Active Bluetooth en los ajustes de este ordenador.',
    },
    no_permission: {
      meaning: 'Este programa no tiene permiso para usar Bluetooth.',
      remedy:
        'Linux: ejecute una vez "sudo setcap cap_net_raw+eip $(readlink -f $(which node))". ' +
        'macOS: autorice el terminal en Privacidad y seguridad, Bluetooth. ' +
        'Windows: permita las aplicaciones de escritorio en Privacidad, Radios.',
    },
    no_radio_library: {
      meaning: 'En este ordenador no se pudo cargar ninguna de las dos bibliotecas de Bluetooth.',
      remedy:
        'Borre la carpeta node_modules y arranque de nuevo; las primeras líneas dirán qué falta.',
    },
    radio_restarted: {
      meaning: 'La parte de Bluetooth dejó de responder y se reinició.',
      remedy:
        'No hay que hacer nada. Si ocurre a menudo, desenchufe el adaptador y enchúfelo otra vez.',
    },
    sensor_lost: {
      meaning: 'El sensor está fuera de alcance o apagado.',
      remedy: 'Acerque el portátil o despierte el sensor. Se conecta de nuevo solo.',
    },
    sensor_silent: {
      meaning: 'El sensor está conectado pero no envía nada.',
      remedy: 'Por ahora no hay que hacer nada: en unos segundos se conecta de nuevo.',
    },
    sensor_refuses: {
      meaning: 'El sensor responde pero se niega a enviar sus lecturas.',
      remedy:
        'Desconéctelo de cualquier teléfono u otro programa, apáguelo y enciéndalo. Se le pregunta de nuevo más o menos cada minuto.',
    },
    sensor_not_chosen: {
      meaning:
        'Hay al alcance un sensor de presión que no habla el perfil. Los barómetros parecen iguales.',
      remedy: 'Si es el sensor de vacío, póngale nombre en «Sensores»: desde entonces se le oye.',
    },
    standard_sensor: {
      meaning:
        'Este sensor habla el servicio general de presión de Bluetooth: lo que la radio pierda no se recupera, y sus tiempos son los de llegada.',
      remedy: 'No hay que hacer nada. Mantenga el portátil cerca.',
    },
    simulated_sensor: {
      meaning: 'Un ordenador hace de sensor: sus lecturas son simuladas.',
      remedy:
        'Está bien para una clase. Tal registro no prueba ningún trabajo, y su informe lo dice.',
    },
    sensor_not_understood: {
      meaning: 'El sensor envía algo que no sigue el perfil.',
      remedy:
        'Actualice el firmware del sensor, o pregunte a su fabricante qué versión del perfil habla.',
    },
    port_taken: {
      meaning: 'Otro programa ya usa este puerto.',
      remedy: 'Elija otro con: npm start -- --port 4181',
    },
    share_port_taken: {
      meaning: 'Otro programa ya usa el puerto para otras pantallas.',
      remedy: 'Elija otro con: npm start -- --share --share-port 4444',
    },
    data_folder_unwritable: {
      meaning: 'No se puede escribir en la carpeta de datos.',
      remedy:
        'Déle permiso de escritura, libere espacio o elija otra con: npm start -- --data FOLDER',
    },
    record_from_newer_version: {
      meaning: 'El registro lo escribió una versión más nueva de este programa.',
      remedy:
        'Arranque la versión más nueva, o elija otra carpeta de datos con: npm start -- --data FOLDER',
    },
    record_from_older_version: {
      meaning: 'El registro lo escribió una versión anterior de este programa.',
      remedy:
        'Ejecute npm start una vez: guarda una copia y actualiza el registro. Después, inténtelo de nuevo.',
    },
    record_damaged: {
      meaning: 'El registro de la carpeta de datos está dañado.',
      remedy:
        'Detenga el programa y ejecute npm start: aparta los archivos dañados y salva en un registro nuevo lo que se pueda leer.',
    },
    record_salvaged: {
      meaning:
        'El registro estaba dañado. Lo que se pudo leer está en uno nuevo; los archivos dañados están apartados.',
      remedy:
        'Conserve la carpeta con los archivos dañados hasta haber visto qué falta. Pregúntese si este disco está fallando y haga una copia.',
    },
    record_not_salvaged: {
      meaning: 'El registro está dañado y no se pudo hacer uno nuevo. No se cambió nada.',
      remedy:
        'Libere tanto espacio como ocupa el registro, o elija otra carpeta de datos con: npm start -- --data FOLDER',
    },
    record_in_use: {
      meaning: 'Otro Ebbline ya guarda su registro en esta carpeta de datos.',
      remedy: 'Use aquel, o elija otra carpeta de datos con: npm start -- --data FOLDER',
    },
    write_failed: {
      meaning: 'No se pudieron escribir lecturas en el registro.',
      remedy:
        'Libere espacio en el disco. Lo que no se pudo escribir se guarda en memoria y se intenta de nuevo; se pierde si el programa termina antes.',
    },
    write_stalled: {
      meaning: 'El disco no responde: lo que se mide espera en memoria a ser escrito.',
      remedy:
        'Espere y no cierre el programa: lo que espera se escribe en orden en cuanto el disco sigue. Un archivo grande que se está leyendo hace lo mismo durante unos segundos; si dura, compruebe si el disco está fallando.',
    },
    readings_refused: {
      meaning: 'Desde hace horas no se puede escribir en el registro, y en la memoria no cabe más.',
      remedy:
        'Libere espacio en el disco ahora. Hasta entonces no se guardan lecturas nuevas; un sensor con memoria quizá las dé de nuevo tras el próximo arranque.',
    },
    backup_failed: {
      meaning: 'No se pudo copiar el registro, y no quedó ninguna copia a medias.',
      remedy:
        'Libere espacio, o elija otro lugar o nombre para la copia. El registro sigue como estaba.',
    },
    bad_backup: {
      meaning:
        'Este archivo no es un registro que se pueda restaurar, y no se restauró nada de él.',
      remedy:
        'Elija un archivo escrito por «Copia de seguridad» o backup-record, y hágalo de nuevo si quedó cortado.',
    },
    backup_too_large: {
      meaning: 'El archivo supera los 8 GB, y no se restauró nada de él.',
      remedy:
        'Detenga el programa y restáurelo en un terminal, que no conoce límite: npm run restore-record -- --from ARCHIVO',
    },
    bad_request: {
      meaning: 'La petición no tiene la forma esperada.',
      remedy:
        'Recargue la página. Si escribió usted la petición, el mensaje dice qué campo está mal.',
    },
    not_found: {
      meaning: 'No hay nada en esta dirección.',
      remedy: 'Vuelva a la página inicial.',
    },
    no_rehearsal: {
      meaning: 'No hay ninguna práctica en marcha.',
      remedy: 'Empiece primero una.',
    },
    no_call: {
      meaning: 'Nadie ha dicho todavía qué es.',
      remedy: 'Dé primero su diagnóstico, o pida la causa sin darlo.',
    },
    already_called: {
      meaning: 'El diagnóstico de esta práctica ya está dado.',
      remedy: 'Pase a la solución.',
    },
    already_revealed: {
      meaning: 'La causa de esta práctica ya se reveló.',
      remedy: 'Empiece otra.',
    },
    no_effect: {
      meaning: 'Esto no cambia nada: ya está así, o a este equipo le falta esa pieza.',
      remedy: 'No hay que hacer nada. No se puso ninguna marca.',
    },
    unknown_scenario: {
      meaning: 'No hay ninguna práctica con ese nombre.',
      remedy: 'Elija una de la lista.',
    },
    recording_closed: {
      meaning: 'Esta grabación ha terminado.',
      remedy: 'Las marcas y entradas van a una grabación que siga en marcha.',
    },
    job_running: {
      meaning: 'Este trabajo aún está en marcha.',
      remedy: 'Termina cuando acaba su grabación, o cuando empieza el trabajo siguiente.',
    },
    job_changed: {
      meaning: 'El comienzo de este trabajo ha cambiado desde que lo miró.',
      remedy: 'Mírelo como está ahora, y firme después.',
    },
    nothing_to_sign: {
      meaning: 'Un ensayo no se firma: no prueba nada de ningún trabajo.',
      remedy: 'No hay nada que hacer.',
    },
    sheet_used: {
      meaning: 'Un trabajo ya tomó esta hoja preparada.',
      remedy: 'Siga con la hoja de ese trabajo, o prepare otra.',
    },
    too_many_prepared: {
      meaning: 'Ya esperan su trabajo tantas hojas preparadas como se pueden guardar.',
      remedy:
        'Descarte una que ya no haga falta, y guarde esta después. No se guardó nada de ella.',
    },
    job_not_archived: {
      meaning: 'Este trabajo no está en el archivo.',
      remedy:
        'Archívelo primero: lo que se borra para siempre no vuelve, y solo se puede borrar un trabajo archivado.',
    },
    bad_readings_file: {
      meaning: 'El archivo no se puede importar, y no se registró nada de él.',
      remedy: 'Corrija la línea indicada e importe el archivo otra vez.',
    },
    readings_file_too_large: {
      meaning: 'El archivo supera los 128 MB, y no se registró nada de él.',
      remedy:
        'Divídalo, o quédese con una fila de cada dos: un día a diez lecturas por segundo cabe.',
    },
    too_many_files: {
      meaning: 'Ya se están leyendo, restaurando o copiando tantos archivos como caben a la vez.',
      remedy: 'Espere a que terminen y vuelva a intentarlo. De este no se ha guardado nada.',
    },
    request_stalled: {
      meaning: 'El resto de lo que se iba a enviar no llegó, y no se ha guardado nada de ello.',
      remedy:
        'Vuelva a intentarlo. Un programa propio tiene que seguir enviando sin pausas largas.',
    },
    nothing_typed_in: {
      meaning: 'No hay ninguna grabación a mano en marcha.',
      remedy: 'Escriba una lectura: la grabación empieza con ella.',
    },
    before_recording: {
      meaning: 'Ese momento es anterior al comienzo de la grabación a mano.',
      remedy: 'Termine primero esa grabación, y empiece la siguiente con su lectura más antigua.',
    },
    foreign_page: {
      meaning: 'La petición viene de una página de otra dirección.',
      remedy:
        'Abra la página con una dirección que el puente diga: en el portátil, como la escribe su terminal; en otra parte, como la muestra «Segunda pantalla».',
    },
    sharing_off: {
      meaning: 'La página no se comparte con otras pantallas.',
      remedy: 'Arranque con: npm start -- --share',
    },
    not_paired: {
      meaning: 'Esta pantalla no está emparejada con el puente, o ya no lo está.',
      remedy:
        'En el portátil abra Menú, «Segunda pantalla», y empareje esta pantalla con el código de allí.',
    },
    not_allowed: {
      meaning: 'Esta pantalla no se emparejó para eso.',
      remedy:
        'Hágalo en el portátil, o empareje esta pantalla de nuevo para ayudar, si con eso basta.',
    },
    no_need_to_pair: {
      meaning: 'Este es el propio portátil: puede hacerlo todo y no se empareja con nadie.',
      remedy: 'Abra la dirección compartida en la otra pantalla.',
    },
    wrong_code: {
      meaning: 'Este código no sirve: mal escrito, ya usado o de hace más de cinco minutos.',
      remedy: 'Haga que el portátil muestre otro código, y use ese.',
    },
    too_many_tries: {
      meaning: 'Se probaron demasiados códigos equivocados.',
      remedy: 'Espere dos minutos por cada intento más, y escanee el código en vez de escribirlo.',
    },
    too_many_requests: {
      meaning: 'Esta pantalla pide demasiado a la vez.',
      remedy: 'Espere un minuto. Cierre las ventanas que muestran lo mismo.',
    },
    too_many_screens: {
      meaning: 'Ya están emparejadas tantas pantallas como caben.',
      remedy:
        'En el portátil abra Menú, «Segunda pantalla», y desempareje las que ya no hagan falta.',
    },
  },

  reading: {
    none: 'Aún sin lectura',
    noneBeside: 'aún sin lectura',
    notLive: ({ since }) => `sin señal desde ${since}`,
    notKept: ({ since }) => `la última lectura; ninguna en el registro desde ${since}`,
    typedIn: ({ at }) => `escrito: ${at}`,
    asOf: ({ at }) => `Según la lectura escrita (${at}).`,
    last: 'la última lectura',
    lastBeside: ({ pressure }) => `${pressure}, la última lectura`,
    catchingUp: 'poniéndose al día',
    ofStub: 'solo el tramo del sensor',
    judgedUpTo: ({ at }) =>
      `Juzgado hasta ${at}: entonces se cerró el paso al sensor. El número desde entonces es del tramo del propio sensor, no del sistema.`,
    shutOff: ({ at }) =>
      `Se cerró el paso al sensor (${at}) antes de que una retención quedara juzgada hasta su final. El número desde entonces es del tramo del propio sensor, no del sistema.`,
    conditions: {
      ok: 'El sensor no da ningún número',
      over_range: 'por encima del rango del sensor',
      under_range: 'por debajo del rango del sensor',
      warming_up: 'El sensor todavía se está calentando.',
      fault: 'El sensor avisa de una avería',
    },
    trend: { falling: 'bajando', rising: 'subiendo', steady: 'estable' },
    trendFast: { falling: 'bajando rápido', rising: 'subiendo rápido' },
    trendRate: {
      falling: ({ rate }) => `baja ${rate}`,
      rising: ({ rate }) => `sube ${rate}`,
    },
  },
  beside: {
    same: ({ first, within }) => `igual que ${first}, con un margen de ${within}`,
    below: ({ apart, first, within }) =>
      `${apart} por debajo de ${first}, con un margen de ${within}`,
    above: ({ apart, first, within }) =>
      `${apart} por encima de ${first}, con un margen de ${within}`,
    gaugesUnsaid:
      'Tal como lo muestran; el error propio de los vacuómetros no está en la hoja de trabajo.',
    others: ({ count }) => `otros ${count} sensores`,
    choose: 'Ver el sensor',
  },

  stages: {
    names: {
      waiting: 'Antes de evacuar',
      pull_down: 'Evacuación',
      at_depth: 'A fondo',
      rise: 'Subida',
      pump_stopped: 'Bomba parada',
      nitrogen_break: 'Barrido con nitrógeno',
      vented: 'Abierto al aire',
    },
    alternatives: {
      waiting: 'aún no se ha evacuado',
      pull_down: 'la bomba aún aspira',
      at_depth: 'la bomba aún aspira',
      rise: 'se aisló',
      pump_stopped: 'la bomba está parada',
      nitrogen_break: 'se metió nitrógeno',
      vented: 'se abrió',
    },
    seen: 'visto en la curva',
    orElse: ({ reading, other }) => `${reading}, o ${other}`,
    recording: 'grabando',
    beforeAny: 'Antes de la primera conclusión',
  },

  forecast: {
    reached: ({ target }) => `${target}: alcanzado`,
    andDepth: ({ depth }) => `y ${depth}, para aislar`,
    depthIn: ({ depth, time, between }) => `${depth} en aprox. ${time}, ${between}`,
    willBeReached: ({ target }) => `Llegará a ${target}`,
    whenUnknown: 'no se sabe cuándo',
    reachedIn: ({ target, time }) => `${target} en aprox. ${time}`,
    soonest: ({ target, time }) => `${target} en ${time} como pronto`,
    noUpperEnd: 'sin límite superior conocido',
    boiling: 'El agua está hirviendo',
    boilingEnds: 'El agua está hirviendo: esto termina, pero sin avisar.',
    boilingWithoutEnd: 'Esto termina, pero sin avisar: no se conoce límite superior.',
    levelsOffAbove: ({ target }) => `Se estanca por encima de ${target}`,
    levelsOffNear: ({ floor }) => `Se estanca cerca de ${floor}`,
    notInEightHours: ({ target }) => `No llegaría a ${target} en ocho horas.`,
    tooEarly: 'Aún no se sabe cuándo',
    depthUnknown: ({ depth }) => `Aún no se sabe cuándo llegará a ${depth}, donde se aísla.`,
    depthSoonest: ({ depth, between }) => `${depth}, donde se aísla: ${between}.`,
    depthAbout: ({ depth, time, between }) =>
      `${depth}, donde se aísla, en aprox. ${time}, ${between}.`,
    sinceChange: ({ length }) => `Según el último tramo, ${length}, desde que algo cambió.`,
  },
  withheld: {
    bridge: 'Esta página ha perdido el puente',
    nothingSince: ({ since }) => `no llega nada desde ${since}`,
    untilBack: 'Pronóstico y dictamen esperan a que vuelva.',
    recordGoesOn:
      'El registro continúa mientras el puente funcione; lo que falta aquí se recupera solo.',
    noNew: 'Sin lecturas nuevas',
    since: ({ since }) => `desde ${since}`,
    untilThereAre: 'Pronóstico y dictamen esperan a que las haya.',
    notKept: 'El registro no admite lecturas',
    untilKept: 'Pronóstico y dictamen esperan a que las admita de nuevo.',
    whatToDo: 'Qué hacer se dice al principio de la página.',
  },
  holdChance: {
    ifValvedOff: 'Si se aísla ahora:',
    because: ({ chance, why }) => `${chance}${why}.`,
    notTheSystem: 'la retención no dice nada del sistema, pues el sensor no lo ve.',
    pressureUnknown: 'sin lectura nadie lo sabe.',
    standsTooHigh: ({ limit }) => `la retención falla, pues empieza por encima de ${limit}.`,
    changedSinceHold:
      'la curva no puede decir si la retención pasa, y la última retención ya no cuenta.',
    curveSilent: 'la curva por sí sola no puede decir si la retención pasa.',
    likely: 'lo más probable es que la retención pase',
    unlikely: 'lo más probable es que la retención falle',
    about: ({ percent }) => `la retención pasa con una probabilidad de aprox. ${percent} %`,
    nobodyCanTell: 'nadie puede decir si la retención pasa',
    atMost: ({ percent }) => `la retención pasa con una probabilidad del ${percent} % como mucho`,
    atLeast: ({ percent }) =>
      `la retención pasa con una probabilidad del ${percent} % por lo menos`,
    between: ({ low, high }) =>
      `la retención pasa con una probabilidad de entre ${low} y ${high} %`,
    littleCanComeIn: ({ most }) => `: no pueden entrar más de ${most}`,
    stillBoils: ', pues el agua todavía hierve',
    mayStillBoil: ', pues quizá el agua todavía hierva',
    littleRoom: ': tan poco margen queda bajo el límite',
    steadyInflow: ({ inflow }) => `: la última mostró una entrada constante, ${inflow}`,
    cameToLittle: ': la última subió poco, y desde entonces se ha seguido evacuando',
    noLeakShown: ': la última no mostró fuga, y no se sabe qué se ha secado desde entonces',
    leftOpen: ': la última no aclaró si hay fuga',
  },

  verdict: {
    names: {
      tight_dry: 'Hermético y seco, en la parte conectada',
      moisture: 'Humedad, o gas del aceite',
      leak: 'Fuga: entrada constante',
      leak_and_moisture: 'Fuga y humedad',
      undecided: 'Sin decidir',
    },
    inflow: ({ rate }) => `entrada ${rate}`,
    belowLeak: 'La entrada es menor que lo que cuenta como fuga.',
    levellingOff: ({ amount }) => `${amount}, se estanca`,
    leakFrom: 'Aire de fuera, o gas que pasa una válvula desde el lado cargado.',
    both: ({ moisture }) => `Entrada constante. La humedad aporta ${moisture} y se estanca.`,
    bothSince: ({ moisture, since }) =>
      `Entrada constante desde ${since}. La humedad aporta ${moisture} y se estanca.`,
    inOneHold:
      'En una sola retención, un gas que sale tan parejo que no dobla la curva parece una fuga. Repita la retención tras evacuar: una fuga sube igual de rápido.',
    undecidedMore: ({ more }) => `Sin decidir: ${more} más`,
    stood: ({ pressure, length }) => `Estaba a ${pressure} tras ${length}.`,
    willStand: ({ pressure, length }) => `Estará cerca de ${pressure} tras ${length}.`,
  },
  reservations: {
    too_early: 'la curva todavía no distingue fuga y humedad',
    between_limits: 'el resultado está tan cerca de un límite que podría caer a cualquier lado',
    falling:
      'la presión baja: una válvula deja pasar gas hacia la bomba, o el sensor está del lado de la bomba',
    evening_out:
      'la presión bajó al principio, mientras se igualaba en las líneas: necesita más tiempo en reposo',
    steepening:
      'la subida se hace más empinada, como mientras el gas aún se reparte o cambia la temperatura del metal: detrás puede esconderse una fuga',
    temperature:
      'la temperatura ha cambiado tanto que el vapor que va y viene con ella puede esconder una fuga: dé sombra al sistema o retenga más tiempo',
    temperature_unknown:
      'ningún termómetro dice si la temperatura se mantiene, y en tan poco tiempo un grado puede esconder una fuga: retenga más tiempo',
    isolation_unsure:
      'por la curva, la bomba puede seguir aspirando: marque el aislamiento, o abra y cierre la válvula',
    not_water_alone:
      'está por encima de la presión de vapor del agua a la temperatura del metal: no es solo agua',
    moisture_besides: 'todavía no se ve qué parte de la subida es humedad',
    ice_possible: 'el metal más frío puede estarlo tanto que esconda hielo',
    not_the_system: 'el sensor no ve el sistema: cambie lo que ve en la hoja de trabajo',
    other_sensor: 'otro sensor que vigila el sistema todavía no lo confirma',
    step: 'un salto en la curva, como cuando una válvula de bola suelta aire atrapado: la retención empieza de nuevo',
    gap: 'faltan demasiadas lecturas',
  },
  ruleBeside: {
    headline: ({ outcome }) => `Criterio: ${outcome}`,
    ourSettings: 'ajustes nuestros',
    asksForNothing: 'no pide nada',
    notJudged: 'no se juzga',
    couldBeEither:
      'Podría ser lo uno o lo otro. Lo aclararía un vacuómetro con menos error, o empezar más a fondo.',
    smallButFails: 'La subida es pequeña y se estanca, pero decide el criterio.',
    notSeen: 'No hay lecturas en el momento que cuenta.',
    besidesPass: {
      tight_dry: '',
      moisture: 'Deja pasar esto; la humedad está ahí de todos modos.',
      leak: 'Deja pasar esta fuga: no cierre el trabajo así.',
      leak_and_moisture: 'Deja pasar esta fuga y humedad: no cierre el trabajo así.',
      undecided: 'Solo con eso el sistema no es hermético y seco.',
    },
    willPass: 'Con esta curva pasará.',
    foreseen: {
      fails: 'Con esta curva no pasará.',
      within_gauge_error: 'Con esta curva quedará cerca del límite.',
      not_held_long_enough: '',
      not_seen: '',
    },
  },

  next: {
    name: 'Ahora',
    startPump: {
      todo: 'Arranque la bomba.',
      how: 'Lastre de gas abierto, si la bomba lo tiene. La grabación ya está en marcha.',
    },
    closeBallast: {
      todo: 'Cierre el lastre de gas.',
      how: 'Ya hizo su trabajo; sin él la bomba llega más a fondo.',
    },
    closeBallastIfAny: {
      todo: 'Cierre el lastre de gas, si lo hay.',
      how: 'Y márquelo aquí: el pronóstico empieza de nuevo desde ahí.',
    },
    letItBoil: {
      todo: 'Siga evacuando y caliente lo frío.',
      how: 'El agua hierve y se enfría sola; el calor acaba antes con ella.',
    },
    keepPumping: {
      todo: 'Siga evacuando.',
      how: ({ depth }) => `Aísle a ${depth} y después pare la bomba.`,
    },
    findCause: {
      todo: 'Averigüe por qué: hay una prueba.',
      how: 'Abajo están las causas probables y la prueba que las distingue.',
    },
    lookForInflow: {
      todo: 'Mire bomba y válvulas: sube la presión.',
      how: '¿Bomba en marcha? ¿Válvulas hacia ella abiertas? ¿Nada flojo?',
    },
    lookAtSensor: {
      todo: 'Mire el sensor.',
      how: '¿Tiene aceite, o está fuera de rango? Compare con otro.',
    },
    findLeak: {
      todo: 'Busque la fuga, o repita la retención.',
      how: 'Si la pendiente es otra vez la misma, es fuga. Marque cuando apriete uniones.',
    },
    valveOff: {
      todo: 'Aísle ahora.',
      how: ({ depth }) =>
        `Estable bajo ${depth}. Cierre primero la válvula y después pare la bomba.`,
    },
    waitForVerdict: {
      todo: ({ more }) => `Espere ${more} más.`,
      how: 'No toque ninguna válvula; mantenga la temperatura del metal.',
    },
    finishHold: {
      todo: ({ left }) => `Deje correr la retención: ${left} más.`,
      how: 'El criterio pide la retención entera.',
    },
    holdAgain: {
      todo: 'Evacúe diez minutos y repita la retención.',
      how: 'La pendiente de una fuga real se mantiene; el gas de paredes y aceite mengua.',
    },
    sensorToSystem: {
      todo: 'Abra el sensor al sistema y anótelo en la hoja.',
      how: 'Lo que ve ahora no dice nada del sistema.',
    },
    checkValve: {
      todo: 'Compruebe que la válvula cierra y dónde está el sensor.',
      how: 'Un sistema cerrado no pierde presión por sí solo.',
    },
    warmIt: {
      todo: 'Caliente la parte más fría y repita la retención.',
      how: 'El hielo apenas suelta vapor que se vea, y sigue siendo agua.',
    },
    nitrogenBreak: {
      todo: 'Rompa el vacío con nitrógeno seco y evacúe de nuevo.',
      how: 'Con regulador, hasta justo sobre la atmosférica. Aísle el sensor si no la soporta.',
    },
    stubTest: {
      todo: 'Descarte primero manguera y unión del sensor.',
      how: 'Cierre el extractor de obuses y observe el ramal 3 minutos. Si sube igual, ahí está la fuga.',
    },
    stubTestThenBreak: {
      todo: 'Primero la fuga: descarte manguera y unión del sensor.',
      how: 'Cierre el extractor de obuses y observe el ramal 3 minutos. Seque con nitrógeno cuando sea hermético.',
    },
    coresIn: {
      todo: 'Cierre: ponga los obuses.',
      how: 'En vacío, por el extractor cerrado.',
    },
    toolClosed: {
      todo: 'Cierre el extractor de obuses.',
      how: 'Solo después quite la manguera de la bomba.',
    },
    sensorIsolated: {
      todo: 'Aísle el sensor.',
      how: 'La carga lo destruiría.',
    },
    valvesOpened: {
      todo: 'Abra las válvulas; márquelo justo antes.',
      how: 'En el orden del fabricante del equipo.',
    },
    pressurePositive: {
      todo: 'Espere a que el manómetro marque presión.',
      how: 'Antes no se quita nada.',
    },
    toolOff: {
      todo: 'Quite mangueras y extractor.',
      how: 'Ponga los tapones; busque fugas.',
    },
    powerOn: {
      todo: 'Dé corriente.',
      how: 'El compresor nunca se arranca en vacío.',
    },
    closedUp: {
      todo: 'Todo cerrado.',
      how: 'Firme, y entregue el informe.',
    },
    closedWithoutPass: {
      todo: 'Cerrado sin haber pasado.',
      how: 'La última retención no lo mostró hermético y seco: dígalo en la firma, y averigüe por qué.',
    },
    pumpAgain: {
      todo: 'Evacúe de nuevo.',
      how: 'El sistema está cerca de la presión atmosférica.',
    },
    valveOffAtOnce: {
      todo: 'Cierre la válvula y mire la bomba.',
      how: 'Una bomba parada deja volver aire y aceite al sistema. Si aisló, márquelo aquí.',
    },
  },

  steps: {
    title: 'Pasos',
    all: 'Todos los pasos',
    group: ({ place }) => `Pasos: ${place}`,
    help: 'Avanzan solos con la curva y las marcas. Lo que ninguna curva muestra se dice aquí.',
    names: {
      nitrogen_test: 'Prueba de nitrógeno',
      hook_up: 'Conectar',
      pump_check: 'Comprobar la bomba sola',
      ballast_open: 'Lastre de gas abierto, si lo hay',
      pull_down: 'Evacuar',
      ballast_close: 'Lastre de gas cerrado',
      target: 'Objetivo alcanzado',
      depth: 'Bastante profundo para aislar',
      valve_off: 'Aislar',
      pump_off: 'Después parar la bomba',
      hold: 'Retención',
      verdict: 'Dictamen',
      oil_change: 'Cambiar el aceite de la bomba',
      cores_in: 'Obuses puestos, en vacío',
      tool_closed: 'Extractor de obuses cerrado',
      sensor_isolated: 'Sensor aislado',
      valves_opened: 'Abrir las válvulas: carga liberada',
      pressure_positive: 'Por encima de la presión atmosférica',
      tool_off: 'Mangueras y extractor fuera, tapones puestos',
      power_on: 'Dar corriente',
    },
    how: {
      nitrogen_test:
        'Primero la estanqueidad. Con el sensor de vacío fuera del sistema, o aislado.',
      hook_up:
        'Con extractor: obuses fuera, manguera al extractor, sensor en su propia toma al otro lado. Con puente de manómetros: una manguera ancha de cada toma directa a la bomba, el sensor no en el puente; con los obuses puestos tarda mucho más.',
      pump_check:
        'Sensor en la bomba tapada: debe bajar mucho más que el objetivo en pocos minutos.',
      ballast_open: 'Al principio, mientras sale mucho vapor.',
      pull_down: 'Bomba en marcha; el registro ya corre.',
      ballast_close: 'A 3000 micras, o cuando deja de hervir.',
      target: 'De la curva, cuando se queda por debajo.',
      depth: 'La mitad del objetivo más o menos: una retención empieza con una pequeña subida.',
      valve_off: 'Primero la válvula.',
      pump_off: 'Solo con la válvula ya cerrada.',
      hold: 'No toque ninguna válvula; mantenga la temperatura del metal.',
      verdict: 'De la curva de la retención.',
      oil_change: 'Pasó agua por la bomba: su aceite está húmedo. Mientras esté caliente.',
      cores_in: 'Con el extractor, por su cámara cerrada.',
      tool_closed: 'Su válvula cerrada antes de quitar la manguera de la bomba.',
      sensor_isolated: 'Lo último antes de la carga: hasta aquí vigila. La carga lo destruiría.',
      valves_opened: 'Pulse justo antes de abrir: el salto que sigue es el de la carga.',
      pressure_positive: 'El manómetro marca por encima de cero antes de quitar nada.',
      tool_off: 'Deprisa, y los tapones con sus juntas; busque fugas en ambos.',
      power_on: 'Solo ahora.',
    },
    cautions: {
      nitrogen_test:
        'Nitrógeno seco con regulador y válvula de alivio, nunca por encima de la presión de prueba del fabricante. Nunca oxígeno ni aire. Ventile.',
      hook_up:
        'Recupere el refrigerante, nunca lo suelte. Descargue el nitrógeno antes de abrirle el sensor.',
      pump_check: 'Bomba y aceite queman; la niebla de aceite, al exterior.',
      pull_down:
        'Nunca haga funcionar el compresor en vacío, ni pruebe sus bobinados con alta tensión.',
      valve_off: 'Antes de que pare la bomba, o el aceite retrocede.',
      hold: 'Nunca abra el extractor al aire mientras el sistema esté en vacío.',
      oil_change: 'Primero aísle y pare la bomba. Quema.',
      cores_in: 'No abra ahora el extractor al aire: se perdería el vacío.',
      valves_opened: 'Guantes y protección ocular: el refrigerante líquido quema.',
      power_on: 'El compresor nunca se arranca en vacío.',
    },
    states: {
      done: 'hecho',
      now: 'ahora',
      to_come: 'por venir',
      skipped: 'nada lo dice',
      not_needed: 'no hace falta',
    },
    knownBy: { curve: 'por la curva', hand: 'a mano', entry: 'por la hoja de trabajo' },
    done: 'Hecho',
    notNeeded: 'No hace falta',
    takeBack: 'Retirar',
    battery: {
      enough: ({ left, needs }) =>
        `Batería: quedan unos ${left}, hacen falta unos ${needs}. Basta.`,
      short: ({ left, needs }) =>
        `Batería: quedan unos ${left}, hacen falta unos ${needs}. No basta: tenga otra a mano, y aísle antes de cambiarla.`,
      left: ({ left }) => `Batería: quedan unos ${left}.`,
    },
    clock: ({ held, whole, rule }) => `${held} de ${whole}. Criterio: ${rule}.`,
    valveOrder: ({ order }) => `Según el fabricante del equipo: ${order}`,
    valveOrderUsual:
      'Manda el orden del fabricante del equipo; no está anotado. Lo habitual: primero la línea grande (aspiración), despacio. Práctica habitual, sin fuente.',
    lost: ({ at, from, to }) =>
      `Perdido antes de liberar la carga: de ${from} a ${to} a los ${at}. Cierre el extractor, busque la causa y evacúe otra vez.`,
    flammableCharge: 'La carga es inflamable: ninguna fuente de ignición cerca al liberarla.',
  },

  prepared: {
    title: 'Hojas preparadas',
    help: 'Rellenadas de antemano, en la furgoneta o la víspera, y guardadas por el puente. En cuanto llegan lecturas, un toque pone una en la hoja del trabajo.',
    newOne: 'Preparar una hoja de trabajo',
    keep: 'Guardarla',
    one: 'Hoja preparada',
    more: 'Lo que tiene su propia página',
    onSheet: 'En la hoja preparada',
    onNew: 'una nueva',
    toSheet: 'A sus campos',
    takeOver: 'Tomarla',
    change: 'Cambiar',
    discard: 'Desechar',
    reallyDiscard: 'Sí, para siempre',
    numbered: ({ number }) => `Hoja ${number}, sin lugar`,
    waiting: ({ what }) => `Preparada: ${what}.`,
    others: ({ count }) => `Otras (${count})`,
    notThis: 'Ahora no',
    startFrom: 'Empezar con lo que tenía un trabajo anterior',
    fromNothing: 'sin nada',
    which: 'Este es',
    equipment: { other: 'otro equipo', same: 'el mismo equipo' },
    carried: ({ what }) =>
      `Rellenado de ese trabajo: ${what}. Nada de lo que se midió o se hizo entonces.`,
    nothingCarried: 'No hay nada rellenado.',
    leftOut: ({ what }: { what: string }) =>
      `Hoja tomada. Este trabajo ya tenía, y conserva como está: ${what}.`,
  },

  causes: {
    summary: 'Por qué, y cómo saberlo',
    likelihood: {
      mostLikely: '(lo más probable)',
      likely: '(probable)',
      possible: '(posible)',
      lessLikely: '(menos probable)',
    },
    gas: {
      name: 'Se está sacando gas libre',
      evidence: 'La bajada mantiene su ritmo.',
      check: 'Nada que comprobar.',
    },
    boilOff: {
      name: 'El agua está hirviendo',
      check:
        'Busque tubo frío, que suda o con escarcha, y caliéntelo: la presión sube al principio y después baja del todo. ' +
        'Aire o paños calientes, nunca llama. Termina solo, pero más tarde.',
      lingers: ({ triplePoint }) =>
        `La presión se detiene cerca o por debajo del punto triple, ${triplePoint}.`,
      lingersAt: ({ pressure, temperature }) =>
        `La presión se detiene. A ${pressure} el agua hierve a ${temperature}: lo que hierve se ha enfriado hasta ahí.`,
    },
    slowTail: {
      name: 'Paredes y aceite sueltan gas',
      evidence: 'La bajada se frena pero continúa.',
      check: 'Caliente el compresor como permita su fabricante, o cambie el aceite de la bomba.',
    },
    ballast: {
      name: 'El lastre de gas está abierto',
      evidence: 'La curva se aplana donde lo hace una bomba con el lastre abierto.',
      check: 'Cierre el lastre: la presión vuelve a bajar en un minuto.',
    },
    floor: {
      name: 'El fondo de la propia bomba, o una fuga que la equilibra',
      evidence: 'La curva se aplana a un nivel y ahí se queda.',
      evidenceAt: ({ level }) => `La curva se aplana a un nivel y ahí se queda: ${level}.`,
      check:
        'Tapone la bomba en su entrada. Si sigue así de alta, cambie el aceite; ' +
        'si baja a fondo, aísle el sistema y observe la subida.',
    },
    wetOil: {
      name: 'El aceite de la bomba está húmedo',
      evidence: 'El nivel al que ha llegado la curva aún baja un poco.',
      check:
        'Cambie el aceite de la bomba en caliente (quema: guantes), o hágala funcionar taponada y con el lastre abierto.',
    },
    rising: {
      name: 'Algo deja subir la presión',
      evidence: 'Sube donde debería bajar.',
      check:
        '¿Está la bomba en marcha, y abiertas todas las válvulas hacia ella? Después busque una fuga.',
    },
    sensor: {
      name: 'El sensor',
      evidence: 'Está fuera de su rango, o su número no se mueve nada.',
      check: 'Mire si hay aceite en el sensor, y compare con otro.',
    },
  },
  tellingCheck: {
    toTellApart: 'Para distinguirlas:',
    ballast: {
      todo: 'Cierre el lastre de gas, y márquelo.',
      outcomes: ['Baja en un minuto: era eso.', 'No se mueve: es una de las otras.'],
      caution: '',
    },
    warm: {
      todo: 'Caliente el metal más frío durante cinco minutos, con la bomba en marcha.',
      outcomes: [
        'Sube y luego baja más que antes: agua.',
        'Sube y se queda arriba: paredes y aceite; siga evacuando.',
        'No se mueve: bomba, aceite o fuga. Después, tapone la bomba en su entrada.',
      ],
      caution:
        'Aire o paños calientes, nunca llama; resistencia de cárter solo según el fabricante.',
    },
    valveOff: {
      todo: 'Aísle el sistema en la bomba durante dos minutos, con el sensor del lado del sistema.',
      outcomes: [
        'Sube en línea recta: una fuga.',
        'Sube y se curva: humedad, o gas del aceite.',
        'Apenas sube: la bomba o su aceite han llegado a su fondo. Tapónela y vea hasta dónde llega.',
      ],
      caution:
        'Cierre la válvula antes de parar la bomba, o el aceite retrocede. Bomba y aceite queman.',
    },
  },

  smallPrint: {
    name: 'Lo que lo acompaña',
    askView: '¿Qué ve el sensor? Sin eso no hay dictamen del sistema.',
  },

  numbers: {
    summary: 'Los números detrás',
    intervals: 'Los intervalos aciertan nueve de cada diez veces.',
    notYet: 'aún no se sabe: muy pocas lecturas',
    hold: {
      title: 'La retención',
      valvedOff: 'Aislado',
      asMarked: ({ at }) => `a los ${at} de la grabación, según la marca`,
      asSeen: ({ at }) => `a los ${at} de la grabación, según la curva`,
      held: 'Retenido',
      heldOf: ({ held, whole }) => `${held} de ${whole}`,
      stoodAtStart: 'Al aislar estaba a',
      standsAt: 'Está a',
      stoodAfter: ({ length }) => `Estaba tras ${length} a`,
      willStandAfter: ({ length }) => `Estará tras ${length} a`,
      scatter: 'Dispersión de las lecturas',
      noScatter: 'ninguna visible',
      scatterAbout: ({ amount }) => `aprox. ${amount} de un segundo a otro`,
      steps: 'Saltos',
      stepUp: ({ size, at }) => `sube ${size} a los ${at}`,
      stepDown: ({ size, at }) => `baja ${size} a los ${at}`,
      startsAnew: ({ steps }) => `${steps}: la retención empieza ahí de nuevo`,
      evenedOut: 'Al principio se igualó',
      upBy: ({ size }) => `subiendo ${size}`,
      downBy: ({ size }) => `bajando ${size}`,
      judgedWith: 'Juzgada junto con',
      earlier: ({ count }) =>
        many(count, {
          one: 'la retención anterior',
          other: `las ${count} retenciones anteriores`,
        }),
    },
    makes: {
      title: 'Qué la hace subir',
      inflow: 'Entrada constante',
      countsFrom: 'Cuenta como fuga desde',
      moisture: 'Por humedad, o gas del aceite, al final de la retención',
      share: 'Parte de la humedad en la subida',
      changeover: 'La ebullición da paso a una subida constante',
      noChangeover: 'no hay tal momento',
      after: ({ length }) => `tras ${length}`,
      afterForeseen: ({ length }) => `tras ${length}, según lo previsto`,
      vapour: 'Presión de vapor del agua',
      vapourAt: {
        below: ({ pressure, temperature }) =>
          `${pressure} a ${temperature}: está muy por debajo, donde puede haber solo agua`,
        near: ({ pressure, temperature }) =>
          `${pressure} a ${temperature}: está más o menos ahí, donde el agua se detiene`,
        above: ({ pressure, temperature }) =>
          `${pressure} a ${temperature}: está muy por encima: hay algo más que agua`,
      },
      metalMissing: 'no se sabe: falta la temperatura del metal → anótela en la hoja de trabajo',
    },
    leak: {
      title: 'Caudal de fuga',
      air: 'Entrada de aire',
      volumeMissing: 'no se sabe: falta el volumen → anótelo en la hoja de trabajo',
      ofAPart:
        'no es del sistema: el sensor ve una parte, con un volumen propio → vea Búsqueda de la fuga',
      inUnit: ({ unit }) => `En ${unit}`,
      standardCm3PerMin: 'cm³/min normales',
      airGPerYear: 'g de aire al año',
      temperatureTaken: ({ temperature }) => `${temperature} (supuesta: nadie la anotó)`,
      conditions: ({ temperature, volume }) =>
        `Aire de fuera hacia el vacío, gas a ${temperature}, volumen ${volume} tomado como exacto. Normal: 0 °C, 101 325 Pa. Bajo presión fluye otra cantidad.`,
      wouldLose: ({ refrigerant, pressure, least, most }) =>
        `Por un orificio que deja entrar tanto aire, ${refrigerant} a ${pressure} bar absolutos perdería entre ${least} y ${most} al año como vapor.`,
      magnitudeOnly:
        'Un orden de magnitud, entre flujo molecular y laminar: un orificio cambia bajo presión, y en líquido se pierde mucho más. Lo que es hermético lo decide la prueba de nitrógeno a presión.',
    },
    rule: {
      title: 'Según el criterio',
      rule: 'Criterio',
      asksFor: 'Pide',
      gaugeError: 'Error del vacuómetro',
      eitherWay: ({ percent }) => `${percent} % de la lectura, en más o en menos`,
      eitherWayTaken: ({ percent }) =>
        `${percent} % de la lectura, en más o en menos (supuesto: nadie lo anotó)`,
      source: ({ source }) => `Fuente: ${source}`,
      letsThroughUnsaid:
        'No se puede decir qué fuga deja pasar este criterio: no nombra retención, ni límite para ella, o el comienzo está por encima.',
      letsThrough: ({ inflow, air }) =>
        `Este criterio deja pasar una entrada constante de hasta ${inflow}: ${air} mbar·L/s de aire en este volumen.`,
      letsThroughWithoutVolume: ({ inflow }) =>
        `Este criterio deja pasar una entrada constante de hasta ${inflow}; para saber cuánto aire es hace falta el volumen.`,
    },
    water: {
      title: 'Agua evacuada',
      onPlateau: 'En la meseta',
      noPlateau: 'ninguna meseta de agua hirviendo que haya terminado',
      noSpeed:
        'no se sabe: la curva antes de la meseta no muestra la velocidad de bombeo → anote bomba y manguera, en Equipo de vacío',
      noVolume:
        'no se sabe: falta el volumen → anótelo en la hoja de trabajo (o bomba y manguera, en Equipo de vacío)',
      lessThan: ({ amount }) => `menos de ${amount}`,
      boiled: ({ from, to, pressure }) =>
        `El agua hirvió de ${from} a ${to} de la grabación, cerca de ${pressure}.`,
      speedFromCurve: ({ boiled }) =>
        `${boiled} La velocidad de bombeo sale de la bajada anterior y del volumen anotado; lo que salió antes y después no se cuenta.`,
      speedFromRig: ({ boiled }) =>
        `${boiled} La velocidad de bombeo sale de la bomba y la manguera anotadas; lo que salió antes y después no se cuenta.`,
    },
    holds: {
      title: 'Retenciones hasta ahora',
      hold: ({ number, at }) => `Retención ${number}, a los ${at}`,
      note: 'Una fuga sube igual de rápido al repetir; lo que sueltan paredes y aceite es menos cada vez.',
      pumpedBefore: ({ length }) => `evacuado antes ${length}`,
      rose: ({ from, to, length }) => `de ${from} a ${to} en ${length}`,
      repeat: 'retención repetida',
      pumpMayPull: 'la bomba puede haber seguido aspirando',
    },
  },

  passRules: {
    names: {
      own: 'Hoja del fabricante del equipo, como se anotó',
      'ufgs-15182': 'UFGS-15182, 3.3.3',
      'ufgs-15741n': 'UFGS-15741N, triple evacuación',
      'au-nz-deep': 'Código de Australia y Nueva Zelanda, 5.4.1, evacuación profunda',
      'au-nz-triple': 'Código de Australia y Nueva Zelanda, 5.4.2, triple evacuación',
      'canada-300': 'Canadá, Environmental Code of Practice: 300 micrones',
      'ashrae-guideline-3': 'ASHRAE Guideline 3',
      'ashrae-15-2': 'ASHRAE 15.2',
      'en-378-2': 'EN 378-2, ISO 5149-2',
    },
    unentered: 'ajustes nuestros, nadie anotó otros',
    noStandard: 'Ninguna norma: las cifras del fabricante del equipo van primero.',
    asEntered: 'Como se anotó en la hoja de trabajo.',
    secondHand: ({ where }) => `${where}. Citado por otros: consúltelo antes de que cuente.`,
    memory: ({ where }) => `${where}. De memoria: consúltelo antes de que cuente.`,
    broken: ({ pressure }) => `${pressure}, roto con nitrógeno`,
    downTo: ({ pressure }) => `bajar a ${pressure}`,
    hold: ({ length }) => `retener ${length}`,
    thenAtMost: ({ pressure }) => `después ${pressure} como máximo`,
    risenBy: ({ pressure }) => `subir ${pressure} como máximo`,
    outcomes: {
      passes: 'pasa',
      fails: 'no pasa',
      within_gauge_error: 'dentro del error del vacuómetro',
      not_held_long_enough: 'retención aún corta',
      not_seen: 'sin medir',
    },
    outcomesInFull: {
      passes: 'lo cumple',
      fails: 'no lo cumple',
      within_gauge_error: 'dentro del error del vacuómetro: podría ser lo uno o lo otro',
      not_held_long_enough: 'aún no se ha retenido bastante',
      not_seen: 'sin medir',
    },
    conditions: {
      final_pressure: ({ limit }) => `Antes de la retención, como máximo ${limit}`,
      end_limit: ({ limit }) => `Al final, como máximo ${limit}`,
      allowed_rise: ({ limit }) => `Subida de como máximo ${limit}`,
    },
    evacuationsBefore: ({ count }) =>
      `Las ${count} evacuaciones anteriores le toca comprobarlas a usted: este programa juzga la última retención.`,
    notColderThan: ({ temperature }) => `Vale solo donde nada esté más frío que ${temperature}.`,
  },

  chart: {
    expected: 'lo esperado, seco y hermético',
    boilsAt: 'el agua hierve a',
    rehearsal: 'Práctica',
    changeover: 'la ebullición da paso a una subida constante',
    isolated: 'aislado',
    overTime: ({ stage }) => `Presión en el tiempo${stage}.`,
    overTimeOf: ({ sensors, stage }) => `Presión en el tiempo de ${sensors}${stage}.`,
    target: ({ pressure }) => `objetivo ${pressure}`,
    valveOffAt: ({ pressure }) => `aislar a ${pressure}`,
    headsFor: ({ pressure }) => `va hacia aprox. ${pressure}`,
    rule: ({ limit, length }) => `criterio: ${limit} tras ${length}`,
    sheet: ({ limit, length }) => `hoja: ${limit} tras ${length}`,
    steadyRise: ({ rate }) => `subida constante, ${rate}`,
    levellingOff: 'se estanca',
    holding: 'se mantiene',
    whereItMayGo: 'adonde puede ir',
    tools: {
      zoomIn: 'Ampliar el tiempo',
      zoomOut: 'Reducir el tiempo',
      all: 'Todo',
      allAloud: 'Toda la grabación',
      usual: 'Habitual',
      usualAloud: 'Vista habitual',
      backToNow: 'Volver al presente',
      backToEnd: 'Volver al final',
      help:
        'Las flechas leen los valores a lo largo de la curva. Más y menos amplían y reducen, Mayús con una flecha mueve, ' +
        'Inicio va al principio, Fin al presente, el cero muestra toda la grabación, y Escape la vista habitual.',
      kind: 'gráfico',
      key: 'Signos del gráfico',
      take: 'Imagen, tabla',
      saveAs: 'Guardar lo que se muestra',
      saveSvg: 'SVG, para imprimir o editar',
      savePng: 'PNG, para enviar',
      saveFailed: 'No se pudo hacer la imagen. El SVG aún se puede guardar.',
      table: 'Las lecturas como tabla',
    },
    key: {
      measured: 'medido',
      foreseen: 'pronóstico, acierta 8 de 10 veces',
      fitted: 'ajuste, con su banda del 80 %',
      arrival: 'cuándo llega, 8 de 10 veces',
      typedIn: 'escrito a mano',
    },
    stretches: {
      gap: 'sin lecturas',
      over_range: 'por encima del rango del sensor',
      under_range: 'por debajo del rango del sensor',
      warming_up: 'sensor calentándose',
      fault: 'avería del sensor',
      late: 'llegó tarde',
    },
    table: { clock: 'Hora', pressure: 'Presión', boils: 'El agua hierve a' },
    cursor: {
      after: {
        pump_on: ({ time }) => `${time} desde el arranque de la bomba`,
        valve_off: ({ time }) => `${time} desde que se aisló`,
        beginning: ({ time }) => `${time} de grabación`,
      },
      before: {
        pump_on: ({ time }) => `${time} antes de arrancar la bomba`,
        valve_off: ({ time }) => `${time} antes de aislar`,
        beginning: ({ time }) => `${time} antes de la grabación`,
      },
      counted: {
        pump_on: 'Desde el arranque de la bomba',
        valve_off: 'Desde que se aisló',
        beginning: 'Desde que empezó la grabación',
      },
      nothing: 'nada medido',
      ahead: 'aún por venir',
      boilsAt: ({ temperature }) => `el agua hierve a ${temperature}`,
      forecast: ({ low, high }) => `pronóstico: entre ${low} y ${high}`,
    },
    curve: {
      rehearsal: 'Práctica',
      nothing: 'En la imagen no hay nada medido',
      falls: ({ from, to, length }) => `La presión baja de ${from} a ${to} en ${length}`,
      rises: ({ from, to, length }) => `La presión sube de ${from} a ${to} en ${length}`,
      stays: ({ pressure, length }) => `La presión sigue cerca de ${pressure} durante ${length}`,
      lowest: ({ pressure, length }) => `con el mínimo, ${pressure}, tras ${length}`,
      highest: ({ pressure, length }) => `con el máximo, ${pressure}, tras ${length}`,
      belowTarget: ({ pressure }) => `Termina por debajo del objetivo de ${pressure}`,
      aboveTarget: ({ pressure }) => `Termina por encima del objetivo de ${pressure}`,
      belowLimit: ({ pressure }) => `Termina por debajo del límite de ${pressure}`,
      aboveLimit: ({ pressure }) => `Termina por encima del límite de ${pressure}`,
      marked: ({ kinds }) => `Tramos marcados: ${kinds}`,
    },
    caption: {
      origins: {
        sensor: 'Trabajo',
        rehearsal: 'Práctica en un sistema simulado, no un trabajo',
        import: 'Importado de un archivo',
        typed_in: 'Escrito a mano',
      },
      pressureIn: ({ unit }) => `presión absoluta en ${unit}`,
      stretch: ({ from, to, number }) => `${from} a ${to} de la grabación ${number}`,
    },
  },
  figure: {
    logarithmic: ({ unit }) => `${unit}, logarítmico`,
    sinceValveOff: 'desde que se aisló',
    sinceRecording: 'desde que empezó la grabación',
    sincePullDown: 'desde que empezó la evacuación',
  },

  marks: {
    group: 'Marque lo que ocurre ahora',
    names: {
      pump_on: 'bomba en marcha',
      pump_off: 'bomba parada',
      ballast_opened: 'lastre abierto',
      ballast_closed: 'lastre cerrado',
      isolated: 'aislado',
      reopened: 'válvula reabierta',
      nitrogen_break: 'nitrógeno',
      cores_out: 'obuses fuera',
      oil_changed: 'aceite cambiado',
      battery_changed: 'batería cambiada',
      joints_tightened: 'uniones apretadas',
      sections_shut: 'válvulas interiores cerradas',
      sections_opened: 'válvulas interiores abiertas',
      job_begun: 'trabajo nuevo',
      cores_in: 'obuses puestos',
      sensor_isolated: 'sensor aislado',
      charge_released: 'carga liberada',
      stub_shut: 'sensor solo en su ramal',
      stub_opened: 'sensor otra vez en el sistema',
      part_seen: 'el sensor ve otra parte',
      note: 'nota',
    },
    buttons: {
      pump_on: 'Bomba en marcha',
      pump_off: 'Bomba parada',
      ballast_opened: 'Lastre abierto',
      ballast_closed: 'Lastre cerrado',
      isolated: 'Aislado',
      reopened: 'Válvula reabierta',
      nitrogen_break: 'Nitrógeno',
      cores_out: 'Obuses sacados',
      oil_changed: 'Aceite cambiado',
      battery_changed: 'Batería cambiada',
      joints_tightened: 'Uniones apretadas',
      sections_shut: 'Válvulas interiores cerradas',
      sections_opened: 'Válvulas interiores abiertas',
      job_begun: 'Trabajo nuevo',
      cores_in: 'Obuses puestos',
      sensor_isolated: 'Cierre: sensor aislado',
      charge_released: 'Carga liberada',
      stub_shut: 'Sensor cerrado en su ramal',
      stub_opened: 'Ramal reabierto',
      part_seen: 'Otra parte aislada',
      note: 'Nota…',
    },
    does: {
      nitrogen_break: 'Romper con nitrógeno',
      cores_out: 'Sacar los obuses',
      oil_changed: 'Cambiar el aceite de la bomba',
      battery_changed: 'Cambiar la batería de la bomba',
      joints_tightened: 'Apretar las uniones',
      sections_shut: 'Cerrar las válvulas interiores',
      sections_opened: 'Abrir las válvulas interiores',
      stub_shut: 'Cerrar el sensor en su ramal',
      stub_opened: 'Reabrir el ramal',
    },
    toDo: 'Más que hacer',
    toMark: 'Más que marcar',
    toDoButton: 'Hacer más…',
    toMarkButton: 'Marcar más…',
    doHelp: 'Se hace enseguida en el equipo simulado, y queda marcado en la curva.',
    markHelp: 'Marque lo que se acaba de hacer.',
    changesNothing: ({ why }) => `Eso no cambia nada: ${why}. No se puso ninguna marca.`,
    unchanged: {
      pump_on: 'la bomba ya está en marcha',
      pump_off: 'la bomba ya está parada',
      ballast_open: 'el lastre de gas ya está abierto',
      ballast_close: 'el lastre de gas ya está cerrado',
      isolate: 'la válvula ya está cerrada',
      reopen: 'la válvula ya está abierta',
      take_cores_out: 'no queda ningún obús',
      change_oil: 'el aceite de la bomba está como nuevo',
      change_battery: 'esta bomba no tiene batería, o la tiene llena',
      tighten_joints: 'las uniones ya se apretaron',
      break_with_nitrogen: 'ya está bajo nitrógeno',
      shut_sections: 'las válvulas interiores ya están cerradas, o este equipo no las tiene',
      open_sections: 'las válvulas interiores ya están abiertas, o este equipo no las tiene',
      shut_stub: 'el sensor ya está cerrado, o no tiene válvula propia',
      open_stub: 'el sensor ya está abierto al sistema, o no tiene válvula propia',
    },
    cautions: {
      nitrogen_break:
        'Nitrógeno seco con regulador y válvula de alivio; nunca oxígeno ni aire. Ventile. Aísle antes el sensor si no lo soporta.',
      cores_out:
        'Con un extractor de obuses. No lo abra nunca al aire mientras el sistema esté en vacío.',
      oil_changed: 'Primero aísle y pare la bomba. Bomba y aceite queman.',
      battery_changed: 'Primero aísle: si no, el aceite retrocede.',
      joints_tightened:
        'Dos llaves, y el par según la tabla del fabricante. Guantes y protección ocular.',
      sections_shut:
        'Desde entonces el sensor solo ve lo que sigue abierto: ningún dictamen sobre lo cerrado. Nunca encierre refrigerante líquido.',
      sections_opened:
        'Donde una válvula necesite corriente para abrir, use solo el modo de vacío o servicio del fabricante. Nunca hacia una parte todavía cargada.',
      cores_in: 'Por el extractor cerrado, en vacío.',
      sensor_isolated:
        'Antes de que la carga le llegue. Lo que muestre desde ahí no dice nada del sistema.',
      charge_released: 'Pulse justo antes de abrir las válvulas: así el salto es el de la carga.',
      stub_shut: 'Desde ahí la curva muestra solo manguera y unión del sensor, no el sistema.',
      stub_opened: 'Nunca hacia un sistema con presión: eso destruye el sensor.',
    },
    noteTitle: 'Nota',
    noteText: 'Qué ocurrió',
    putOnCurve: 'Ponerlo en la curva',
  },

  work: {
    name: 'El trabajo del día',
    places: {
      nitrogen: 'Prueba de nitrógeno',
      hook_up: 'Conexión',
      pull_down: 'Evacuación',
      rise: 'Subida',
      closing_up: 'Cierre',
    },
    since: ({ since }) => `desde ${since}`,
    lasting: ({ length }) => `desde hace ${length}`,
    holdOf: ({ length }) => `retención de ${length}`,
    states: { before: 'por venir', now: 'ahora', done: 'hecho antes' },
    report: 'Informe',
    asPdf: 'en PDF',
    cautions: {
      nitrogen: [
        'Nitrógeno solo con regulador y válvula de alivio, nunca por encima de la presión de prueba del fabricante. Nunca oxígeno ni aire.',
        'Descargue antes de abrir el sensor de vacío al sistema: la presión de prueba lo destruye.',
        'El nitrógeno desplaza el oxígeno en locales cerrados: ventile.',
        'Protección ocular y guantes.',
      ],
      hook_up: [
        'Recupere el refrigerante, nunca lo suelte; solo personal autorizado.',
        'Refrigerante inflamable: recupere y barra primero con nitrógeno, ventile, descargue al exterior, use una bomba apta para él y conéctela fuera de la zona. El portátil y el sensor también son fuentes de ignición.',
        'Bloquee la corriente de la unidad exterior. Donde las válvulas de expansión necesiten corriente para abrir, use solo el modo de vacío o servicio del fabricante.',
        'Ponga el sensor del lado del sistema, tan lejos de la bomba como permita la tubería.',
      ],
      pull_down: [
        'No haga funcionar nunca un compresor en vacío, ni pruebe ahí sus devanados con alta tensión.',
        'Bomba y aceite queman; la niebla de aceite va al exterior.',
        'Aísle antes de que pare la bomba, o de cambiar su batería: si no, el aceite retrocede.',
        'Resistencia de cárter solo según el fabricante.',
      ],
      rise: [
        'No abra nunca al aire el extractor de obuses mientras el sistema esté en vacío.',
        'Una retención de vacío encuentra fugas gruesas; la hermeticidad la decide la prueba de nitrógeno.',
      ],
      closing_up: [
        'Vuelva a poner los obuses sin perder el vacío; cierre el extractor antes de quitar nada.',
        'Aísle el sensor antes de que le llegue la carga.',
        'Abra las válvulas en el orden del fabricante del equipo, refrigerante hasta presión positiva, y solo después la corriente.',
        'El compresor no se arranca nunca en vacío.',
      ],
    },
    whoDecides:
      'Este programa aconseja. Deciden las instrucciones del fabricante del equipo, la normativa local y la persona autorizada en la obra.',
  },

  alerts: {
    title: 'Avisos',
    seen: 'Visto',
    allSeen: 'Todo visto',
    none: 'No se ha avisado de nada en esta grabación.',
    reach: 'Cómo le llegan…',
    inDoubt: ({ title }) => `${title}, ahora en duda`,
    unheard: 'No se oyó: el navegador espera un primer toque.',
    andBefore: ({ count }) => `Y ${count} antes`,
    calledAt: ({ moment, clock }) => `${moment}, a las ${clock}`,
    early: 'antes de abrir esta página',
    ofAnother: ({ recording }) => `En otra grabación: ${recording}.`,
    states: {
      open: 'aún no visto',
      seen: 'visto',
      replaced: 'otro más nuevo ocupó su lugar',
      over: 'ya no es así',
    },
    seenAt: ({ at }) => `visto a las ${at}`,
    tones: { good: 'Bien', act: 'Hágalo', warning: 'Atención' },
    intoRecording: ({ at }) => `a los ${at} de la grabación`,
    intoRehearsal: ({ at }) => `a los ${at} de la práctica`,
    target: ({ target }) => `${target}: alcanzado`,
    targetHow: ({ target, place }) => `La presión bajó de ${target} y se mantuvo ahí, ${place}.`,
    depth: ({ depth }) => `Aísle: ${depth} estable`,
    depthHow: ({ place }) =>
      `Cierre primero la válvula y después pare la bomba. Estable desde ahí, ${place}.`,
    levelsOff: ({ target }) => `Se estanca sobre ${target}`,
    levelsOffHow: ({ place }) =>
      `Se queda así si no se cambia nada, desde ahí, ${place}. Abajo están las causas probables.`,
    levelsOffNear: ({ floor, place }) =>
      `Se queda cerca de ${floor} si no se cambia nada, desde ahí, ${place}. Abajo están las causas probables.`,
    ballast: 'Cierre el lastre de gas',
    ballastHow: ({ place }) => `Sigue abierto, ${place}; sin él la bomba llega más a fondo.`,
    pumpBattery: 'La batería de la bomba no llega',
    pumpBatteryLeft: ({ left }) =>
      `Le quedan aprox. ${left}. Aísle antes de que pare y después cámbiela.`,
    pumpBatteryEmpty: 'Está casi vacía. Aísle antes de que pare y después cámbiela.',
    pumpBatteryNeeds: ({ left, needs }) =>
      `Le quedan aprox. ${left}, y hasta el fondo faltan aprox. ${needs}. Aísle antes de cambiarla.`,
    pumpBatteryEmptyNeeds: ({ needs }) =>
      `Está casi vacía, y hasta el fondo faltan aprox. ${needs}. Aísle antes de cambiarla.`,
    verdicts: {
      tight_dry: 'hermético y seco',
      moisture: 'humedad',
      leak: 'fuga',
      leak_and_moisture: 'fuga y humedad',
      undecided: 'sin decidir',
    },
    verdict: ({ verdict }) => `Dictamen: ${verdict}`,
    drawn: ({ verdict, place }) => `${verdict}. Emitido ${place}.`,
    withdrawn: 'Dictamen retirado: sin decidir',
    verdictNow: ({ verdict }) => `Dictamen ahora: ${verdict}`,
    since: ({ place }) => `Desde ahí, ${place}.`,
    sinceNotTight: ({ place }) =>
      `Desde ahí, ${place}. Era hermético y seco: no cierre el trabajo con eso.`,
    sinceBefore: ({ place, before }) => `Desde ahí, ${place}. Antes: ${before}.`,
    vacuumLost: 'Se está perdiendo el vacío',
    vacuumLostTo: ({ from, to, place }) =>
      `De ${from} a ${to}, ${place}. No se fíe del aprobado: cierre lo último que abrió. Si el sensor ya está fuera del sistema, solo se llena su manguera.`,
    vacuumLostBeyond: ({ from, place }) =>
      `De ${from} a más allá del rango del sensor, ${place}. No se fíe del aprobado: cierre lo último que abrió. Si el sensor ya está fuera del sistema, solo se llena su manguera.`,
    theSensor: 'El sensor',
    sensorBattery: ({ percent }) => `Batería del sensor al ${percent}`,
    sensorBatteryHow: ({ sensor }) =>
      `${sensor} puede callar antes de que acabe la retención. Cárguela o cámbiela ya.`,
    sensorLost: ({ sensor }) => `${sensor} no se oye`,
    sensorLostHow: ({ place }) =>
      `Oído por última vez ${place}. No se vigila nada hasta que vuelva: acerque esta pantalla.`,
    sensorBack: ({ sensor }) => `${sensor} se oye de nuevo`,
    bridgeLost: 'Esta pantalla no oye nada',
    bridgeLostHow: ({ place }) =>
      `El puente no responde desde ahí, ${place}. Si dura, arránquelo con: npm start.`,
    bridgeBack: 'El puente responde otra vez',
    bridgeBackHow: ({ place }) => `Desde ahí, ${place}. Lo registrado entretanto ya está aquí.`,
    deviceBattery: ({ percent }) => `Batería de esta pantalla al ${percent}`,
    deviceBatteryHow: 'Enchúfela: apagada no avisa a nadie.',
  },
  reach: {
    title: 'Cómo le llegan los avisos',
    help: 'La página muestra el aviso, y también su título y su icono. Además:',
    sound: 'Sonido',
    sounds: {
      off: 'ninguno',
      bell_buoy: 'Boya de campana',
      call_pipe: 'Chifle',
      rivet_hammer: 'Martillo remachador',
      two_terns: 'Dos charranes',
    },
    volume: 'Volumen',
    repeat: 'Avisar',
    repeats: { once: 'una vez', until_seen: 'cada 15 s hasta verlo' },
    check: 'Probar el sonido',
    heard: '¿Llegó adonde va a estar usted?',
    yes: 'Sí, claro',
    no: 'No llegó',
    fine: 'Entonces le avisa así.',
    louder:
      'Súbalo aquí y en el propio ordenador, pruebe otro sonido, o saque un altavoz de la furgoneta. También ayuda avisar hasta verlo.',
    vibrate: 'Vibrar, en un teléfono que pueda',
    speak: 'Decirlo además en voz alta',
    trySpeech: 'Decir algo',
    speechSample: { title: 'La voz está activada', detail: 'Los avisos se leen así.' },
    ask: 'Permitir notificaciones del sistema',
    permissions: {
      default: 'Aún no se ha preguntado.',
      granted: 'Permitidas.',
      denied: 'Denegadas: cámbielo en los ajustes del navegador para esta dirección.',
      none: 'Este navegador no las tiene.',
    },
    blocked: 'Aún no se oye ningún aviso: el navegador quiere que toque esta página una vez.',
    unblock: 'Que suene',
    noSound: 'Este navegador no emite sonido.',
  },

  menu: {
    title: 'Menú',
    entries: {
      rehearse: {
        title: 'Practicar',
        text: 'Un trabajo simulado, a cualquier velocidad, con la causa oculta.',
      },
      'type-in': {
        title: 'Escribir lecturas',
        text: 'Para un vacuómetro sin radio: cada número es una lectura.',
      },
      recordings: {
        title: 'Trabajos',
        text: 'Buscarlos, abrir uno con su curva, comparar dos, informe, firma, archivo.',
      },
      'new-job': {
        title: 'Empieza otro trabajo',
        text: 'El sistema siguiente, desde ahora o desde que se encendió su bomba.',
      },
      sign: {
        title: 'Firmar',
        text: 'Quién responde de este trabajo, con una observación para su informe.',
      },
      steps: { title: 'Pasos', text: 'Qué está hecho, qué toca ahora, qué viene; el cierre.' },
      prepared: {
        title: 'Hojas preparadas',
        text: 'Rellene una antes de registrar nada; a partir de un trabajo anterior si quiere.',
      },
      sheet: {
        title: 'Hoja de trabajo',
        text: 'Lugar, objetivo, retención, criterio, qué ve el sensor.',
      },
      rig: {
        title: 'Equipo de vacío',
        text: 'Bomba, mangueras y obuses, y con qué rapidez deberían evacuar.',
      },
      nitrogen: {
        title: 'Prueba con nitrógeno',
        text: 'Presión y temperatura al inicio y ahora: ¿aguanta?',
      },
      cycles: {
        title: 'Barridos con nitrógeno',
        text: 'Varias evacuaciones con nitrógeno entre ellas: por dónde va y qué han conseguido.',
      },
      hunt: {
        title: 'Búsqueda de la fuga',
        text: 'El sensor solo, luego sección por sección: dónde está la fuga.',
      },
      volume: {
        title: 'Volumen: líneas, serpentines, válvulas',
        text: 'Lo que contiene el sistema, sus tramos, y cuáles están conectados.',
      },
      'pump-check': {
        title: 'Prueba de la bomba',
        text: 'El sensor en la bomba sola: bomba, aceite y manguera en orden, o no.',
      },
      sensors: {
        title: 'Sensores: nombres y lugares',
        text: 'Un nombre propio para cada uno, y dónde está.',
      },
      'second-screen': {
        title: 'Segunda pantalla',
        text: 'Lo mismo en otra ventana, o en un teléfono que entra con un código.',
      },
      alerts: {
        title: 'Avisos',
        text: 'De qué se avisó en esta grabación, y quién lo ha visto.',
      },
      'alert-reach': {
        title: 'Cómo le llegan los avisos',
        text: 'Sonido, y a qué volumen; vibración, voz, notificaciones.',
      },
      settings: {
        title: 'Idioma, unidades y aspecto',
        text: 'En qué se muestran las presiones; día, noche o pleno sol; el papel de los informes.',
      },
    },
  },

  secondScreen: {
    title: 'Segunda pantalla',
    same: 'Todas las pantallas muestran lo mismo, y lo que se marca en una queda marcado en todas.',
    code: 'Código QR de la dirección',
    copy: 'Copiar la dirección',
    open: 'Abrir otra ventana',
    done: 'Copiada.',
    refused: 'El navegador no quiso copiarla. Seleccione la dirección y cópiela a mano.',
    thisMachine:
      'La página no se comparte: esta dirección se abre solo en este ordenador, en otra ventana por ejemplo. Para dejar entrar teléfonos y tabletas, pare el puente y arránquelo con: npm start -- --share',
    looksOnly: 'En esta pantalla esto es solo para mirar.',
    sharing: {
      title: 'Dejar entrar una pantalla',
      network: 'En qué red está la otra pantalla',
      noNetwork:
        'La página se comparte, pero este ordenador no está en ninguna red local. Conéctelo a una, o haga que el teléfono abra una; se busca cada diez segundos.',
      roleAsked: 'Qué puede hacer la otra pantalla',
      roles: { watch: 'Mirar', assist: 'Ayudar', owner: 'Todo' },
      roleMeans: {
        watch: 'Ve todos los trabajos del registro y no cambia nada.',
        assist:
          'Ve todos los trabajos del registro, pone marcas, anota en la hoja de trabajo, escribe lecturas y retira avisos. No borra ni firma nada, y no empieza ni termina ninguna grabación.',
      },
      show: 'Mostrar un código',
      scan: 'Apunte la cámara de la otra pantalla al código; o abra allí esta dirección y escriba el código de abajo.',
      typed: 'Código para escribir',
      goodFor: ({ time }: { time: string }) => `Para una pantalla, hasta las ${time}.`,
      paired: ({ name }: { name: string }) => `«${name}» ha entrado.`,
      warning:
        'El navegador de allí avisará del certificado, porque ninguna autoridad responde de uno que este ordenador se hizo a sí mismo. Haga que lo muestre antes de seguir. Su huella tiene que ser la de abajo; si es otra, hay alguien en medio: no siga.',
      fingerprint: 'Huella del certificado (SHA-256)',
      cost: 'Quien rechaza el certificado no puede abrir la página. Quien sigue a pesar del aviso puede usarla, pero la mayoría de los navegadores no dan entonces notificaciones, no guardan la página para cuando no hay red y pueden dejar que la pantalla se apague: tenga el portátil donde se oiga.',
      screens: 'Pantallas que han entrado',
      none: 'Ninguna.',
      here: 'está aquí ahora',
      lastSeen: ({ time }: { time: string }) => `estuvo aquí por última vez: ${time}`,
      unpair: 'Echar fuera',
      pairedAs: {
        watch: 'ha entrado para mirar: ve todos los trabajos del registro y no cambia nada.',
        assist:
          'ha entrado para ayudar: pone marcas, anota en la hoja de trabajo, escribe lecturas y retira avisos. Lo demás se hace en el portátil.',
        owner: 'es el propio portátil.',
      },
      leave: 'Que esta pantalla deje de entrar',
    },
    pairing: {
      title: 'Dejar entrar esta pantalla',
      whereCode:
        'Escriba el código que muestra el portátil: Menú, Segunda pantalla, Mostrar un código. Mejor aún, apunte la cámara de esta pantalla a él.',
      scanned: 'El código se ha leído. Sirve una vez, y durante unos minutos.',
      code: 'Código',
      name: 'Cómo se llama esta pantalla en el portátil',
      names: { phone: 'Teléfono', other: 'Tableta' },
      go: 'Dejarla entrar',
      compare:
        'Si el navegador ha avisado del certificado: compare su huella con la del portátil antes de seguir. Si no coinciden, hay alguien en medio.',
      cost: 'Un navegador al que se le dijo que siguiera a pesar de su aviso casi nunca da notificaciones, no guarda la página para cuando no hay red y puede dejar que la pantalla se apague.',
    },
  },

  settings: {
    language: 'Idioma',
    languageOfSystem: 'como el sistema',
    pressureIn: 'Presión en',
    temperatureIn: 'Temperatura en',
    look: 'Aspecto',
    looks: { system: 'como el sistema', day: 'día', night: 'noche', sun: 'pleno sol' },
    paper: 'Papel de los informes',
    papers: { system: 'el usual aquí', A4: 'A4', Letter: 'Carta' },
  },

  rehearse: {
    title: 'Practicar',
    help: 'Un trabajo simulado con una causa oculta: trabájelo, dé su diagnóstico y vea después qué lo delataba.',
    trainee: 'Quién practica',
    hands: 'Bomba y válvulas',
    byHelper: 'Las maneja un ayudante',
    byHand: 'Yo mismo',
    speed: 'Velocidad',
    asInLife: 'tiempo real',
    drawn: 'Uno nuevo cada vez',
    difficulty: 'Dificultad',
    difficulties: { plain: 'Sencilla', mixed: 'Mixta', hard: 'Difícil' },
    seed: 'Número de trabajo',
    seedWhy: 'El mismo número da otra vez el mismo trabajo.',
    seedWrong: 'Número de trabajo: un entero de 0 a 4294967295.',
    anotherSeed: 'Otro número',
    jobs: 'Trabajos disponibles',
    start: 'Empezar',
    called: 'ya diagnosticado',
    results: 'Diagnósticos hasta ahora',
    asking: 'Preguntando al puente…',
    numbered: ({ job, number }) => `${job}, número ${number}`,
    titleOf: ({ job }) => `Práctica: ${job}`,
    places: {
      'bridge-end-pharmacy': 'Farmacia en Bridge End, almacén',
      'chapel-hill-surgery': 'Consultorio en Chapel Hill, sala de curas',
      'copper-row-workshop': 'Taller en Copper Row, oficina',
      'fern-court-laundry': 'Lavandería en Fern Court, sala de planchado',
      'guildhall-annex': 'Anexo de la casa gremial, dos plantas superiores',
      'harbour-lane-bookshop': 'Librería en Harbour Lane, planta alta',
      'lantern-court-library': 'Biblioteca en Lantern Court, hemeroteca',
      'lindens-dental-practice': 'Clínica dental en The Lindens, sala de espera',
      'meadow-view-nursery': 'Jardín de infancia Meadow View, aula',
      'mill-street-barber': 'Barbería en Mill Street, trastienda',
      'north-quay-boathouse': 'Casa de botes en North Quay, sala del club',
      'observatory-lane-office': 'Oficina en Observatory Lane, sala de reuniones',
      'orchard-close-flat': 'Piso en Orchard Close, dormitorio',
      'priory-street-gymnasium': 'Gimnasio en Priory Street, vestuarios',
      'quarry-road-bakery': 'Panadería en Quarry Road, tienda',
      'ropewalk-print-shop': 'Imprenta en The Ropewalk, sala de prensas',
      'saddlers-yard-cafe': 'Café en Saddler’s Yard, galería',
      'station-road-florist': 'Floristería en Station Road, tienda',
      'summit-road-refuge': 'Refugio de montaña en Summit Road, 2400 m, comedor',
      'tannery-lane-studio': 'Estudio en Tannery Lane, tras el patio',
      'tollgate-cottage': 'Casa en el antiguo portazgo, cocina',
      'vineyard-pavilion': 'Pabellón sobre el viñedo, sala de catas',
      'weir-street-archive': 'Archivo municipal en Weir Street, sala de lectura',
    },
    drawnJobs: {
      plain: 'Un trabajo sencillo',
      mixed: 'Un trabajo mixto',
      hard: 'Un trabajo difícil',
    },
    bar: {
      label: 'Práctica',
      name: 'Práctica, no un trabajo',
      pause: 'Pausa',
      goOn: 'Seguir',
      again: 'De nuevo',
      stop: 'Parar',
      ended: 'Ha terminado.',
      call: { long: 'Ya sé qué es', short: 'Lo sé' },
      reveal: 'Revelarlo',
      whatTold: 'Qué lo delataba, y cómo fue',
      another: 'Otra',
      nextEvent: { long: 'Al próximo suceso', short: 'Próximo' },
      tenMinutes: { long: 'Diez minutos más', short: '10 min más' },
    },
    ends: {
      stop: {
        title: '¿Parar la práctica?',
        what: 'Después no puede seguir. Su curva queda entre los registros, y aún se puede dar el diagnóstico.',
        now: 'Pararla',
      },
      again: {
        title: '¿Empezarla de nuevo?',
        what: 'El mismo trabajo empieza desde el principio, y esta vez termina. Su curva queda entre los registros.',
        now: 'Empezarla de nuevo',
      },
    },
  },
  call: {
    title: '¿Qué es?',
    help: 'Un diagnóstico, antes de revelarlo. La práctica sigue mientras tanto; póngala en pausa si quiere.',
    causes: 'La causa',
    sure: '¿Cómo de seguro está de que es eso?',
    percent: 'por ciento',
    percentOf: ({ percent }) => `${percent} por ciento`,
    guess: 'al azar',
    certain: 'seguro',
    trainee: 'Quién diagnostica',
    make: 'Este es mi diagnóstico',
    without: 'Dígamelo sin diagnóstico',
    withoutWhy: 'Termina la práctica. No cuenta ni como acierto ni como error.',
    made: 'Su diagnóstico está guardado',
    madeWhy:
      'Pida que se revele, lo que termina la práctica; o siga antes y vea qué curaría su diagnóstico.',
    reveal: 'Revelarlo ahora',
    goOn: 'Seguir antes',
    called: ({ cause, percent }) => `${cause}, con ${percent} de seguridad`,
  },
  rehearsalCauses: {
    in_order: {
      name: 'En orden',
      means: 'Hermético y seco, y nada malo en bomba, manguera ni sensor.',
    },
    moisture: { name: 'Humedad', means: 'Agua o hielo en el sistema, y ninguna fuga.' },
    leak: { name: 'Fuga', means: 'El sistema deja entrar aire, y está seco.' },
    leak_and_moisture: {
      name: 'Fuga y humedad',
      means: 'El sistema deja entrar aire, y además hay agua en él.',
    },
    gear_leak: {
      name: 'Fuga en el equipo de vacío',
      means:
        'Manguera, extractor de obuses o unión del sensor dejan entrar aire; el sistema es hermético.',
    },
    charged_side: {
      name: 'Refrigerante por una válvula',
      means: 'Una válvula cerrada deja pasar algo desde una parte cargada.',
    },
    refrigerant: {
      name: 'Refrigerante en el aceite',
      means: 'El aceite del compresor suelta lo que tenía disuelto.',
    },
    pump_or_oil: { name: 'Bomba o su aceite', means: 'La bomba por sí sola no baja lo bastante.' },
    ballast_open: {
      name: 'Lastre de gas abierto',
      means: 'La bomba deja entrar aire en sí misma todo el tiempo.',
    },
    narrow_way: {
      name: 'Paso estrecho a la bomba',
      means: 'Obuses puestos, o manguera larga o fina: la velocidad de la bomba no llega.',
    },
    sensor_place: {
      name: 'Sensor en mal sitio',
      means: 'No ve el sistema, sino el extremo de la manguera en la bomba.',
    },
    part_shut_off: {
      name: 'Una parte cerrada',
      means: 'Una válvula cerrada separa de la bomba una parte, o lo que hay en su interior.',
    },
    battery: { name: 'Batería de la bomba', means: 'Se agotó en mitad del trabajo.' },
    radio: { name: 'Radio', means: 'No llegaron lecturas; el sistema está en orden.' },
  },
  reveal: {
    title: 'Qué era',
    tells: 'Qué lo delataba',
    curve: 'La curva entera, con el momento desde el que lo delataba.',
    told: 'desde aquí se veía',
    called: 'su diagnóstico',
    work: 'Cómo fue',
    numbers: 'Los números',
    job: 'Trabajo',
    again: 'El mismo trabajo otra vez',
    helped: 'El ayudante manejó bomba y válvulas: del trabajo no hay nada que decir.',
    itWas: ({ cause }) => `Era: ${cause}.`,
    right: ({ cause }) => `Acertado: ${cause}.`,
    notSo: ({ cause }) => `No. Era: ${cause}.`,
    yourCall: ({ call }) => `Su diagnóstico: ${call}.`,
    differedFrom: ({ at }) => `Desde ${at} la curva se apartó de la del mismo trabajo en orden.`,
    neverInOrder: 'Que nada falla solo lo dice una retención entera.',
    neverRadio: 'Lo delataban las lecturas que faltan, y nada en la curva.',
    neverDiffered:
      'Tal como se trabajó, la curva nunca se apartó de la del mismo trabajo en orden.',
    callCame: ({ told, at }) => `${told} Su diagnóstico llegó en ${at}.`,
    callBefore: ({ told, length }) =>
      `${told} Su diagnóstico llegó ${length} antes: una suposición.`,
    callAfter: ({ told, length, at }) =>
      `${told} Su diagnóstico llegó ${length} después, en ${at}.`,
    inflow: 'Entrada constante una vez aislado',
    water: 'Agua al principio',
    ballast: 'Lastre de gas al principio',
    none: 'nada',
    open: 'abierto',
    closed: 'cerrado',
  },
  debrief: {
    grades: {
      well: 'Bien hecho',
      early: 'Demasiado pronto',
      late: 'Demasiado tarde',
      missed: 'Faltó',
    },
    withFigures: ({ sentence, figures }) => `${sentence} (${figures}).`,
    findings: {
      right_call: 'El diagnóstico nombró la causa.',
      half_right_call:
        'El diagnóstico era la mitad: fuga y humedad se distinguen con la retención entera.',
      wrong_call: 'El diagnóstico nombró otra causa.',
      sure_and_wrong: 'El diagnóstico nombró otra causa, y con seguridad.',
      no_call: 'No se dio diagnóstico.',
      called_before_it_told:
        'Diagnosticado antes de que la curva lo mostrara: una suposición, acertada o no.',
      called_in_time: 'Diagnosticado cuando la curva lo mostró, sin esperar mucho.',
      called_long_after: 'Diagnosticado mucho después de que no quedara nada por ver.',
      never_pumped: 'La bomba no se arrancó nunca.',
      ballast_closed_in_time: 'Lastre de gas cerrado a tiempo.',
      ballast_closed_too_early: 'Lastre de gas cerrado cuando la bomba aún lo necesitaba.',
      ballast_closed_late: 'Lastre de gas cerrado mucho después de hacer su trabajo.',
      ballast_left_open: 'Lastre de gas abierto: con él la bomba no llega a fondo.',
      isolated_at_depth: 'Aislado a la profundidad debida.',
      isolated_where_it_levelled_off:
        'Aislado donde se había estancado: ahí la retención dice más que seguir evacuando.',
      isolated_above_depth: 'Aislado antes de llegar a fondo, cuando aún bajaba.',
      valved_off_at_the_limit:
        'Aislado en el límite que la retención debe cumplir, o por encima: solo podía fallar.',
      valved_off_before_pump_stopped: 'Aislado antes de parar la bomba.',
      pump_stopped_before_valve_off:
        'Bomba parada con la válvula abierta: así retrocede el aceite.',
      never_held: 'No hubo retención. Sin ella nadie puede decir hermético.',
      hold_long_enough: 'La retención duró lo debido.',
      hold_failed_before_its_end:
        'La retención pasó de su límite: el resto no habría aportado nada.',
      hold_too_short: 'La retención terminó antes de tiempo.',
      cure_tried: 'Esto va a la causa, o a su lugar.',
      other_cure_tried: 'Esto no hace nada contra esta causa.',
    },
    cureTried: ({ cure }) => `${cure}: va a la causa, o a su lugar.`,
    otherCureTried: ({ cure }) => `${cure}: no hace nada contra esta causa.`,
    cures: {
      nitrogen_break: 'Romper con nitrógeno',
      cores_out: 'Sacar los obuses',
      oil_changed: 'Cambiar el aceite',
      battery_changed: 'Cambiar la batería',
      joints_tightened: 'Apretar las uniones',
      sections_shut: 'Cerrar las válvulas interiores',
      sections_opened: 'Abrir las válvulas interiores',
      stub_shut: 'Cerrar el sensor en su ramal',
    },
  },
  score: {
    title: 'Diagnósticos hasta ahora',
    trainee: 'De quién',
    none: 'Nadie ha dado todavía un diagnóstico. Cuenta cuando le sigue la solución.',
    right: 'Acertado',
    wrong: 'No',
    open: 'Abrir',
    brierName: 'Puntuación de Brier',
    rightName: 'Acertados',
    sureName: 'Seguridad media',
    called: ({ call }) => `Diagnóstico: ${call}.`,
    calledButWas: ({ call, cause }) => `Diagnóstico: ${call}. Era: ${cause}.`,
    tooFew: ({ needed, count }) =>
      `Una puntuación necesita ${needed} diagnósticos; hasta ahora ${many(count, { one: `hay ${count}`, other: `hay ${count}` })}.`,
    of: ({ share, count }) => `${share} de ${count}`,
    inTheLongRun: ({ low, high }) => `a la larga entre ${low} y ${high}`,
    brierMeans: ({ low, high, half, fifty }) =>
      `entre ${low} y ${high}; 0 es lo mejor, ${half} es lo que da estar siempre seguro al ${fifty}`,
    tooSure: 'más seguridad de la que los aciertos respaldan',
    notSureEnough: 'menos seguridad de la que los aciertos permitirían',
    fits: 'no se distingue de los aciertos, hasta donde tan pocos pueden decir',
  },

  recordings: {
    title: 'Trabajos',
    open: 'Abrir',
    report: 'Informe',
    reportAsPdf: 'Informe en PDF',
    readInFile: 'Importar un archivo',
    readInHelp:
      'Un archivo con una columna de tiempos y otra de presiones se convierte en una grabación propia, marcada ' +
      'como importada. Usted ve cómo se lee antes de guardar nada; el mismo archivo otra vez crea otra. ' +
      'Los archivos exportados aquí y las copias de seguridad se importan enseguida.',
    takingIn: 'Importando…',
    csv: 'CSV',
    csvOf: ({ number }) => `CSV ${number}`,
    json: 'JSON',
    fullCsv: 'CSV completo',
    fullCsvHelp: 'Todo lo que tiene cada lectura, y las marcas: para hojas de cálculo',
    jsonHelp: 'El trabajo entero con todos sus hechos: para guardarlo, o importarlo en otro lugar',
    backUp: 'Copia de seguridad',
    backUpHelp:
      'Un archivo con todas las grabaciones, también mientras una está en marcha. Importado aquí o en otro ' +
      'ordenador, devuelve lo que falte allí.',
    restored: {
      added: ({ count }) =>
        many(count, {
          one: `Se restauró ${count} grabación.`,
          other: `Se restauraron ${count} grabaciones.`,
        }),
      already: ({ count }) =>
        many(count, { one: `${count} ya está aquí.`, other: `${count} ya están aquí.` }),
      altered: ({ count }) =>
        many(count, {
          one: `Los códigos de ${count} no concuerdan: sus datos se alteraron antes.`,
          other: `Los códigos de ${count} no concuerdan: sus datos se alteraron antes.`,
        }),
      refused: ({ number, why }) => `La grabación ${number} del archivo no se restauró: ${why}.`,
    },
    job: 'Trabajo',
    jobTypedIn: 'Trabajo, escrito a mano',
    imported: ({ title }) => `Importado: ${title}`,
    readInAt: ({ at }) => `importado ${at}`,
    recordingSince: ({ at }) => `grabando desde ${at}`,
    recordedAt: ({ at }) => `grabado ${at}`,
    running: ({ at }) => `${at}, en marcha`,
    importedFile: ({ title }) => `${title}, importado`,
    typedIn: 'escrito a mano',
    lastAt: ({ at }) => `último: ${at}`,
    overImport:
      'Esto se importó de un archivo. La próxima lectura de un sensor empieza sola una grabación.',
    over: 'Esta grabación ha terminado. La próxima lectura empieza sola una nueva.',
  },

  jobs: {
    search: 'Lugar, equipo, sensor, nombre o día',
    verdict: 'Dictamen',
    anyVerdict: 'Cualquiera',
    noHold: 'sin retención',
    where: 'Dónde',
    places: { no: 'Actuales', yes: 'Archivo', all: 'Todos' },
    none: 'No se encontró ningún trabajo.',
    nothingYet: 'Aún no se ha grabado nada.',
    found: ({ count }) => (count === 1 ? '1 trabajo' : `${count} trabajos`),
    stillJudging: ({ count }) =>
      `${count} más aún se están evaluando, y no se encuentran por su dictamen.`,
    further: 'Mostrar anteriores',
    running: 'en marcha',
    notJudged: 'aún sin evaluar',
    soFar: ({ outcome }) => `${outcome}, hasta ahora`,
    rehearsal: 'ensayo',
    signedBy: ({ name }) => `firmado por ${name}`,
    archived: 'archivado',
    more: 'Más',
    layBehind: 'Comparar: dibujarlo detrás',
    archive: 'Archivar',
    takeOut: 'Sacar del archivo',
    putAway: ({ place }) => `Ya en el archivo: ${place}.`,
    takenOut: ({ place }) => `Otra vez fuera del archivo: ${place}.`,
    deleted: 'El trabajo está borrado para siempre.',
    deleteForGood: 'Borrar para siempre',
    deleteAsk:
      'Sus lecturas, marcas y anotaciones se sobrescribirán. Lo que queda dice que algo se borró, y cuándo. Las copias del registro lo conservan.',
    deleteAskAgain: 'No hay vuelta atrás. ¿Borrar este trabajo para siempre?',
    goOn: 'Seguir',
    reallyDelete: 'Sí, borrarlo para siempre',
    keepIt: 'Conservarlo',
  },
  laidBehind: {
    title: ({ job }) => `Detrás: ${job}`,
    from: 'Puesto desde',
    aligned: { pump_on: 'bomba encendida', valve_off: 'válvula cerrada' },
    takeAway: 'Quitarlo',
    nothing: 'Ese trabajo no tiene tal momento, o este aún no.',
    onCurve: 'el otro trabajo',
  },
  newJob: {
    title: 'Empieza otro trabajo',
    help: 'La grabación sigue; lo que se muestra, se evalúa y se informa desde aquí es solo el trabajo nuevo. El anterior conserva todo lo suyo.',
    begins: 'Empieza',
    choices: {
      pump_on: ({ at }) => `cuando se encendió la bomba, ${at}`,
      silence: ({ at }) => `cuando volvieron a llegar lecturas, ${at}`,
      last: ({ at }) => `en su última lectura, ${at}`,
      now: ({ at }) => `ahora, ${at}`,
    },
    begin: 'Empezar el trabajo',
    begun: ({ at }) => `Este trabajo empieza ${at}.`,
    join: 'Unirlo con el trabajo anterior',
    reallyJoin: 'Sí, hacer uno de los dos',
    joinHelp:
      'Los dos vuelven a ser un solo trabajo: lecturas, dictamen e informe. De lo escrito dos veces, como el lugar, vale lo último.',
    carried: ({ what }) =>
      `Pasa del trabajo anterior: ${what}. El lugar, el objetivo, los límites y el criterio no.`,
    nothingCarried:
      'Nada pasa del trabajo anterior: el lugar, el objetivo, los límites y el criterio se escriben de nuevo.',
  },
  signOff: {
    title: 'Firmar',
    help: 'Para el informe. Dice quién responde del trabajo; el programa no comprueba ni el nombre ni la licencia de nadie.',
    name: 'Nombre',
    licence: 'Número de licencia, donde se pida',
    remark: 'Observación',
    changed:
      'Entretanto ha empezado otro trabajo. Cierre esto, mire el trabajo que quiere firmar, y fírmelo.',
    sign: 'Firmar',
    signed: ({ name, at }) => `Firmado por ${name}, ${at}.`,
    again: 'Quien vuelve a firmar ocupa su lugar; el registro conserva las dos firmas.',
    noRehearsal: 'Esto es un ensayo: no hay nada que firmar.',
  },

  readIn: {
    title: 'Importar un archivo',
    help: 'Cómo se leen las columnas es una suposición: mírela y cambie lo que esté mal. No se guarda nada antes de importarlo.',
    columns: {
      time: 'Tiempo',
      pressure: 'Presión',
      temperature: 'Temperatura',
      event: 'Suceso',
    },
    timeAs: 'Tiempo como',
    pressureIn: 'Presión en',
    temperatureIn: 'Temperatura en',
    timeKinds: {
      seconds: 'segundos',
      minutes: 'minutos',
      clock: 'hora del día',
      date: 'fecha y hora',
    },
    separator: 'Las celdas se separan con',
    separators: { ';': 'punto y coma', '\t': 'tabulador', ',': 'coma' },
    decimal: 'Decimales tras',
    decimals: { '.': 'punto', ',': 'coma' },
    none: 'ninguna',
    choose: 'elija…',
    lineNumber: 'línea',
    column: ({ number }) => `columna ${number}`,
    reading: 'Leyendo…',
    readingIn: 'Importando…',
    leaveOut: 'Omitir las filas que no se pudieron leer',
    nothing:
      'No se encontró ninguna lectura. Elija arriba las columnas, y cómo se escriben tiempo y presión.',
    unsaid: 'Elija cómo se escriben tiempo y presión: el archivo no lo dice.',
    back: 'Otro archivo',
    found: ({ readings, length }) => `${readings} en ${length}`,
    foundLowest: ({ readings, length, lowest }) => `${readings} en ${length}, mínimo ${lowest}`,
    withoutPressure: ({ count }) => `${count} de ellas sin presión`,
    readings: ({ count, digits }) =>
      many(count, { one: `${digits} lectura`, other: `${digits} lecturas` }),
    events: ({ count, digits }) =>
      many(count, { one: `${digits} suceso`, other: `${digits} sucesos` }),
    unreadable: ({ count, digits }) =>
      many(count, {
        one: `${digits} fila no se pudo leer`,
        other: `${digits} filas no se pudieron leer`,
      }),
    readInCount: ({ readings }) => `Importar ${readings}`,
    faultyLine: ({ line, fault }) => `línea ${line}: ${fault}`,
    faults: {
      cells: ({ cell }) =>
        `tiene ${cell} celdas y la tabla más o menos; compruebe que está completa`,
      time: ({ cell }) => `«${cell}» no es un tiempo de la clase elegida; elija otra, o corríjalo`,
      time_back: ({ cell }) =>
        `«${cell}» es anterior a la fila de antes; ordene las filas por tiempo`,
      time_long: ({ cell }) => `«${cell}» está a más de 49 días del comienzo; ¿está en esa unidad?`,
      pressure: ({ cell }) => `«${cell}» no es una presión; déjela vacía donde no se midió nada`,
      pressure_negative: ({ cell }) =>
        `«${cell}» está bajo cero, y una presión absoluta no puede estarlo; convierta la manométrica en absoluta`,
      pressure_high: ({ cell }) =>
        `«${cell}» es más de lo que muestra ningún sensor; ¿está en esa unidad?`,
      temperature: ({ cell }) => `«${cell}» no es una temperatura; déjela vacía donde no la haya`,
      event: ({ cell }) =>
        `«${cell}» no es un suceso conocido: pump on, ballast closed, isolated; o no elija columna`,
    },
    furtherFaults: ({ count }) => many(count, { one: 'y una más', other: `y ${count} más` }),
    howRead: ({ time, kind, pressure, unit }) =>
      `Importado con el tiempo de «${time}» (${kind}) y la presión de «${pressure}» (${unit}).`,
    leftOut: ({ count, lines }) =>
      many(count, {
        one: `${count} fila no se pudo leer y se omitió: línea ${lines}.`,
        other: `${count} filas no se pudieron leer y se omitieron: línea ${lines}.`,
      }),
    leftOutAndOthers: ({ count, lines }) =>
      `${count} filas no se pudieron leer y se omitieron: línea ${lines} y otras.`,
  },

  typeIn: {
    title: 'Escribir lecturas',
    next: 'Escribir la próxima lectura',
    help:
      'Lea el vacuómetro, escriba lo que muestra, Intro, y así sucesivamente. Cada una cuenta desde ahora; para una ' +
      'leída antes, escriba 12:40 o −2 min. La grabación sigue hasta que la termine, o hasta doce ' +
      'horas sin un número.',
    end: 'Terminar esta grabación',
    pressure: ({ unit }) => `Presión absoluta, ${unit}`,
    metal: ({ unit }) => `Metal, si se midió, ${unit}`,
    when: 'Leído a las',
    now: 'ahora',
    enter: 'Anotar',
    gauge: 'Su vacuómetro',
    gaugeUnsaid: 'Su vacuómetro: cómo se llama, dónde está, con qué finura muestra',
    gaugeSaid: ({ said }) => `Su vacuómetro: ${said}`,
    stepsOf: ({ step }) => `pasos de ${step}`,
    last: 'Escritas por último',
    correct: 'Corregir',
    correctTo: ({ name }) => `Debería ser: ${name}`,
    takeBack: 'Retirarla',
    leave: 'Dejarla',
    takenBack: 'retirada',
    putRight: ({ pressure }) => `corregida a ${pressure}`,
    notEntered: ({ pressure, why }) => `${pressure} no se anotó. ${why}`,
    mistakable: ({ typed, whole, broken }) =>
      `«${typed}» puede ser ${whole} o ${broken}: escríbalo como uno de estos.`,
    wrong: {
      pressure:
        'Presión: no puede ser. Escriba la presión absoluta como número, y mire su unidad: ningún ' +
        'sensor de vacío muestra más de dos atmósferas.',
      when:
        'Leído a las: no puede ser. Escriba la hora como 12:40, o −2 min, o déjelo vacío para ahora; ' +
        'como mucho once horas atrás.',
      temperature: 'Temperatura del metal: no puede ser. Escriba un número, o déjelo vacío.',
    },
  },

  sensors: {
    title: 'Sensores: nombres y lugares',
    rename: 'Poner nombre a este sensor',
    help:
      'Dé a cada sensor un nombre que diga algo en la obra, y diga dónde está conectado. Ambos se ' +
      'recuerdan para este sensor. Uno en la bomba no da dictamen del sistema.',
    name: 'Nombre',
    calibrated: 'Última calibración, según su certificado',
    place: 'Está',
    places: { unknown: 'sin decir', system: 'en el sistema', pump: 'en la bomba' },
    step: ({ unit }) => `Su pantalla va en pasos de, ${unit}`,
    stepWrong: 'El paso: un número mayor que cero, o déjelo vacío.',
    save: 'Guardar',
    saved: 'Guardado.',
    offered: ({ name }) => `${name}: no habla el perfil. Póngale nombre para oírlo.`,
    choose: 'Sensores al alcance',
    inReach: 'Al alcance',
    none: 'No se está grabando ningún sensor al que poner nombre. Aparece aquí con su primera lectura.',
    signals: {
      good: ({ dbm }) => `señal buena (${dbm} dBm)`,
      fair: ({ dbm }) => `señal regular (${dbm} dBm)`,
      weak: ({ dbm }) => `señal débil (${dbm} dBm)`,
    },
    battery: ({ percent }) => `batería ${percent}`,
    clockFast: ({ percent }) => `su reloj adelanta un ${percent} %, y se tiene en cuenta`,
    clockSlow: ({ percent }) => `su reloj atrasa un ${percent} %, y se tiene en cuenta`,
    stillSo: {
      system: ({ said }) =>
        `Se supone en el sistema, como se dijo ${said}. ¿Sigue así? Guárdelo otra vez, o cámbielo.`,
      pump: ({ said }) =>
        `Se supone en la bomba, como se dijo ${said}. ¿Sigue así? Guárdelo otra vez, o cámbielo.`,
    },
    saidBefore: ({ place, said }) => `${place}, como se dijo antes, ${said}`,
    nameless: 'Sensor',
    typedIn: 'Escrito a mano',
    simulated: 'Sensor simulado',
    serial: ({ serial }) => `número de serie ${serial}`,
    knownAs: ({ id }) => `conocido por este ordenador como ${id}`,
  },

  sheet: {
    title: 'Hoja de trabajo',
    names: {
      site: 'Lugar',
      equipment: 'Equipo',
      refrigerant: 'Refrigerante',
      targetPa: 'Objetivo',
      isolateAtPa: 'Aislar a',
      holdS: 'Retención',
      endLimitPa: 'Criterio: al final como máximo',
      allowedRisePa: 'Criterio: subida máxima',
      passRule: 'Criterio de aceptación',
      gaugeErrorShare: 'Error del vacuómetro, si se sabe',
      leakLimitPaPerS: 'Cuenta como fuga desde',
      volumeM3: 'Volumen, si se sabe',
      metalTemperatureC: 'Metal, si se sabe',
      coldestTemperatureC: 'Punto más frío, si se sabe',
      sensorSees: 'El sensor ve',
      pumpDisplacementM3PerS: 'Bomba, aire libre',
      pumpUltimatePa: 'Bomba, presión mínima',
      pumpBatteryS: 'La batería de la bomba dura',
      hoseBoreM: 'Manguera, diámetro interior',
      hoseLengthM: 'Manguera, longitud',
      hoseCount: 'Mangueras en paralelo',
      core: 'Obuses',
      nitrogenReadings: 'Prueba con nitrógeno',
      nitrogenGauge: 'Manómetro de la prueba con nitrógeno',
      triplePlan: 'Evacuaciones con nitrógeno entre ellas',
      seenSection: 'Sección que ve el sensor',
      stubVolumeM3: 'Ramal con el sensor, volumen',
      serial: 'Número de serie',
      oil: 'Aceite',
      systemHistory: 'El sistema estaba',
      altitudeM: 'Altitud',
      ambientTemperatureC: 'Aire alrededor',
      coldestPlace: 'Dónde está lo más frío',
      people: 'Quién trabaja',
      valveOrder: 'Orden de las válvulas, según el fabricante del equipo',
      tickedSteps: 'Pasos dichos a mano',
      pumpBallast: 'Bomba, lastre de gas',
      pumpOilChangedOn: 'Último cambio de aceite de la bomba',
      tubes: 'Líneas',
      vessels: 'Serpentines y recipientes',
      sections: 'Tramos',
      joins: 'Entre los tramos',
    },
    views: {
      unknown: 'sin decir aún',
      system: 'todo el sistema conectado',
      section: 'una sección de él',
      stub: 'solo un ramal del extractor',
      pump_side: 'el lado de la válvula que da a la bomba',
    },
    cores: { unknown: 'No se sabe', in: 'Puestos', out: 'Sacados' },
    oils: {
      unknown: 'No se sabe',
      mineral: 'Aceite mineral',
      alkylbenzene: 'Alquilbenceno',
      poe: 'Poliol éster (POE)',
      pve: 'Polivinil éter (PVE)',
      pag: 'Polialquilenglicol (PAG)',
    },
    histories: {
      unknown: 'No se sabe',
      new: 'Nuevo',
      opened: 'Abierto para el trabajo',
      open_for_days: 'Abierto durante días',
      burnt_out: 'Con el compresor quemado',
      flooded: 'Inundado de agua',
    },
    groups: {
      system: 'El sistema: número de serie, refrigerante, aceite, qué ha pasado',
      place: 'El lugar: altitud, temperaturas',
      people: 'Personas, y el orden de las válvulas según el fabricante',
    },
    safetyClass: ({ name, meaning }) => `Clase de seguridad ${name}: ${meaning}.`,
    safetyClasses: {
      A1: 'toxicidad baja, sin propagación de llama',
      A2L: 'toxicidad baja, inflamable, arde despacio',
      A3: 'toxicidad baja, muy inflamable',
      B2L: 'toxicidad alta, inflamable, arde despacio',
    },
    classSources: {
      second_hand: ({ where }) =>
        `${where}, tal como otros la repiten: consúltela antes de que cuente.`,
      memory: ({ where }) => `${where}, de memoria: consúltela antes de que cuente.`,
    },
    flammable:
      'Inflamable: sin fuentes de ignición (llamas, interruptores, una bomba no apta, también este portátil y el sensor), ventile, descargue al exterior, un detector de gas donde se acumula (junto al suelo; el amoníaco, bajo el techo). Deciden el fabricante del equipo y la norma.',
    toxic: 'De toxicidad alta: protección respiratoria y ventilación como pide la norma.',
    historyAdvice: {
      open_for_days:
        'Abierto durante días, paredes y aceite han tomado agua: cuente con romper el vacío con nitrógeno.',
      burnt_out:
        'Tras quemarse el compresor: prueba de acidez, filtros y cambio de aceite según el fabricante del equipo, antes de hacer vacío.',
      flooded:
        'Inundado: primero vacíe y sople con nitrógeno seco, después caliente. Una bomba sola tarda días.',
    },
    hygroscopic:
      'Este aceite toma agua del aire: manténgalo cerrado, y espere una cola lenta en la curva.',
    adviceSource: 'Práctica habitual, sin fuente.',
    atmosphere: (of) =>
      `El aire allí pesa ${of.kPa} kPa según la atmósfera estándar (ISO 2533); el tiempo la mueve un 2 %. Ahí está el cero de un manómetro: el vacío total se lee −${of.inHg} inHg o −${of.bar} bar. Al aire el agua hierve a ${of.boils}. Los sensores absolutos, y los límites de aquí, no cambian.`,
    valveOrderHelp: 'El orden del propio fabricante del equipo, con las palabras del manual.',
    ballasts: { unknown: 'No se sabe', yes: 'Tiene', no: 'No tiene' },
    notEntered: 'sin anotar',
    refrigerantUnknown: 'Sin anotar',
    ruleHelp: 'Al elegir uno se rellenan sus cifras; las del fabricante del equipo van primero.',
    viewFilledIn:
      'Tomado de donde está este sensor. Corríjalo en Menú, Sensores: con uno en la bomba y otros a su lado, ninguna entrada aquí da dictamen del sistema.',
    more: 'Más, hasta donde se sepa',
    moreHelp:
      'Cada uno hace que los números del dictamen digan más. El volumen convierte una subida en caudal de fuga; la temperatura del metal dice hasta dónde puede llegar solo el agua.',
    settings:
      'Lo que hay aquí al principio son ajustes nuestros, no de una norma. La mitad del objetivo es una buena profundidad para aislar.',
    enter: 'Anotar',
    wrong: ({ name }) =>
      `${name}: no puede ser. Escriba un número con sentido, o deje lo que había.`,
    wrongFor: ({ name, why }) => `${name}: ${why}`,
    unusual: (of) =>
      `${of.name}: ${of.figure} se aparta mucho de lo usual (de ${of.low} a ${of.high}). ¿Es así, o la unidad es otra?`,
    itIsSo: ({ figure }) => `Son ${figure}`,
    unit: 'Unidad',
  },

  rig: {
    title: 'Equipo de vacío',
    never: 'nunca',
    faster:
      'Más rápido de lo que este equipo debería. Quizá parte del sistema no esté conectada, el sensor ' +
      'esté en la bomba, o el volumen sea menor de lo anotado.',
    anAid:
      'Una ayuda, no una promesa: calculado para un sistema seco y hermético con el lastre cerrado. El agua que ' +
      'paredes y aceite siempre guardan alarga mucho la última parte. Si va más rápido de lo esperado, quizá ' +
      'parte del sistema no esté conectada.',
    ultimateTooHigh:
      'La presión mínima de la propia bomba no es menor que el objetivo: esta bomba no llega nunca.',
    example: ({ figure }) => `p. ej. ${figure}`,
    parts: { pump: 'bomba', hose: 'manguera', core: 'obús', line: 'líneas' },
    holdsBack: {
      pump: ({ pressure }) =>
        `A ${pressure} lo que más frena es la bomba. Otras mangueras cambiarían poco.`,
      hose: ({ pressure }) =>
        `A ${pressure} lo que más frena es la manguera. Lo que más ayuda es una más ancha o más corta, o una segunda.`,
      core: ({ pressure }) =>
        `A ${pressure} lo que más frena es el obús. Lo que más ayuda es sacar los obuses.`,
      line: ({ pressure }) =>
        `A ${pressure} lo que más frena son las propias líneas largas del sistema. Bombee por los dos extremos, si puede; otro equipo cambia poco.`,
    },
    missing: {
      volumeM3: 'el volumen del sistema',
      pumpDisplacementM3PerS: 'el caudal de aire libre de la bomba',
      hoseBoreM: 'el diámetro interior de la manguera',
      hoseLengthM: 'la longitud de la manguera',
    },
    stillMissing: ({ missing }) => `Aún no hay previsión. Falta: ${missing}.`,
    assumptions: {
      pumpUltimatePa: 'una bomba sin fondo propio',
      hoseCount: 'una manguera',
      core: 'obuses sacados',
    },
    assumed: ({ assumed }) => `No anotado, y se supone: ${assumed}.`,
    notInEightHours: 'no en 8 horas',
    speed: ({ speed, pump }) => `${speed} de los ${pump} L/min de la bomba`,
    share: ({ part, percent }) => `${part} ${percent} %`,
    timeTo: ({ pressure }) => `Hasta ${pressure}`,
    timeToTarget: ({ pressure }) => `Hasta el objetivo, ${pressure}`,
    speedThere: 'Velocidad de bombeo ahí',
  },

  planning: {
    volume: {
      title: 'Volumen: líneas, serpentines, válvulas',
      connected: 'Conectado a la manguera',
      ifOpen: 'Si lo que no se sabe está abierto',
      nothing: 'Aún no se sabe nada de líneas y serpentines. Un ejemplo de abajo ayuda a empezar.',
      range: ({ estimate, low, high }) => `${estimate} L, entre ${low} y ${high} L`,
      uncounted: ({ names }) => `Sin contar, porque no se sabe nada de ello: ${names}.`,
      bothWays: ({ joins }) =>
        `No se sabe si está abierto: ${joins}. Abrirlo, o cerrarlo, deja una sola respuesta.`,
      takeOver: ({ litres }) => `Tomar ${litres} L como volumen`,
      onSheet: ({ litres }) => `En la hoja: ${litres} L.`,
      notOnSheet: 'Aún no hay volumen en la hoja.',
      source:
        'Medidas de tubo: ASTM B280 según otros la reproducen, EN 12735-1 de memoria. Por carga: densidad del líquido en ebullición a 20 °C, y el líquido llena entre un quinto y la mitad de la pieza (un recipiente, de la mitad a nueve décimos): práctica común, sin fuente. Una pieza corriente es una estimación gruesa, sin fuente. El dato del fabricante va primero.',
      unusual: ({ name, said }) =>
        `${name}: ${said}. ¿Es así, o la unidad es otra? Junto a la cifra puede ir una unidad: 25 ft, 3 lb.`,
      itIsSo: 'Es así',
      presets: {
        name: 'Rellenar con un ejemplo',
        line_set: 'Líneas y unidad interior, la exterior cerrada con su carga',
        whole_split: 'Un split completo',
        several_units: 'Varias unidades interiores, la exterior cerrada',
        fill: 'Rellenar',
        replaces: 'Lo que hay en las listas de abajo se sustituye cuando lo anote.',
      },
      sectionNames: {
        lines: 'Líneas y unidad interior',
        outdoor: 'Unidad exterior',
        lowSide: 'Compresor y lado de baja',
        outdoorCoil: 'Serpentín exterior',
        main: 'Líneas principales',
        indoor: ({ number }) => `Unidad interior ${number}`,
      },
      sections: 'Tramos',
      sectionName: 'Nombre',
      litres: 'Volumen, L, si se sabe',
      hoseHere: 'Manguera aquí',
      tubes: 'Líneas',
      role: 'Para qué',
      roles: {
        gas: 'gas',
        liquid: 'líquido',
        suction: 'aspiración',
        discharge: 'descarga',
        other: 'otra',
      },
      size: 'Medida',
      tempers: { annealed: 'rollo', drawn: 'barra' },
      ownSize: 'medida propia',
      outerMm: 'Exterior, mm',
      wallMm: 'Pared, mm',
      lengthM: 'Longitud, m',
      section: 'Tramo',
      theHoseSection: 'donde está la manguera',
      vessels: 'Serpentines y recipientes',
      kind: 'Pieza',
      kinds: {
        indoor_coil: 'serpentín interior',
        outdoor_coil: 'serpentín exterior',
        compressor: 'compresor',
        accumulator: 'acumulador',
        receiver: 'recipiente de líquido',
        filter_drier: 'filtro deshidratador',
        other: 'otra',
      },
      by: 'Se conoce por',
      bys: { volume: 'volumen', charge: 'carga', usual: 'lo corriente' },
      amount: { volume: 'Litros', charge: 'Kilogramos', usual: 'Lo corriente' },
      refrigerant: 'Refrigerante',
      joins: 'Lo que une los tramos',
      joinKind: 'Válvula o línea',
      joinKinds: {
        open_line: 'línea abierta',
        service_valve: 'válvula de servicio',
        branch_valve: 'válvula de ramal',
        expansion_valve: 'válvula de expansión',
        reversing_valve: 'válvula de cuatro vías',
        solenoid: 'válvula solenoide',
        check_valve: 'válvula de retención',
      },
      from: 'Entre',
      to: 'y',
      state: 'Está',
      states: { unknown: 'no se sabe', open: 'abierta', closed: 'cerrada' },
      add: ({ what }) => `Añadir: ${what}`,
      remove: ({ what }) => `Quitar: ${what}`,
      enter: 'Anotar',
      reasons: {
        number: 'hace falta un número con sentido.',
        wall: 'la pared es más gruesa que el tubo. Anote el diámetro exterior y una pared.',
        name: 'dé a cada tramo un nombre propio.',
        ends: 'nombre dos tramos distintos.',
        unknown: 'nombra un tramo que no está en la lista. Elija de nuevo su tramo.',
        many: 'no más de cuarenta filas.',
      },
      listed: {
        charged: ({ charge, refrigerant }) => `para ${charge} kg de ${refrigerant}`,
        sectionWithHose: ({ section }) => `${section}, manguera aquí`,
        join: ({ kind, one, other, state }) => `${kind} entre ${one} y ${other}: ${state}`,
      },
      map: 'Plano de los tramos',
    },
    time: ({ estimate, between }) => `unos ${estimate}, ${between}`,
    barsAt: ({ pressure }) => `Lo que frena a ${pressure}`,
    nothingThere: 'Esta bomba no llega ahí.',
    battery: {
      name: 'Batería de la bomba',
      enough: ({ lasts }) => `${lasts}: basta para un sistema seco.`,
      close: ({ lasts }) => `${lasts}: quizá justo. El agua lo alargaría; tenga otra preparada.`,
      not_enough: ({ lasts }) => `${lasts}: no basta, aunque todo esté seco.`,
    },
    whatIf: {
      title: 'Y si…: otro equipo, lado a lado',
      asEntered: 'como está anotado',
      changes: {
        cores_out: 'sin obuses',
        larger_hose: 'manguera una medida mayor',
        second_hose: 'una segunda manguera',
        shorter_hose: 'manguera la mitad de larga',
        larger_pump: 'bomba el doble de grande',
      },
      gear: 'Equipo',
      speed: 'L/min en el objetivo',
      curves:
        'Curvas esperadas del equipo de la tabla, sobre el tiempo desde que se encendió la bomba.',
      help: 'Para un sistema seco y hermético. Una manguera mayor suele valer más que una bomba mayor: práctica común, sin fuente; aquí está calculado.',
    },
    deviation: {
      slower: ({ low, high }) =>
        `Más lento desde el principio de lo que este equipo debería: entre ${low} y ${high} veces. Busque un obús puesto, una manguera doblada o fina, una bomba débil; o el volumen es mayor de lo anotado.`,
      plateau: ({ pressure, since }) =>
        `Se apartó de la curva esperada a ${pressure} y lleva ${since} cerca de ahí: hierve agua. Acaba cuando el agua se va; caliente la parte más fría y dele tiempo.`,
      floor: ({ between }) =>
        `Va hacia un fondo de ${between}: más alto de lo que este equipo debería tener. Mire el aceite, un lastre abierto o una fuga. Paredes y aceite muy húmedos pueden parecerlo también.`,
      standstill: ({ pressure, since }) =>
        `Lleva ${since} cerca de ${pressure}; seco y estanco, este equipo estaría mucho más abajo. El agua o su hielo da gas, o lo sostiene una fuga, el aceite o un lastre abierto: caliente la parte más fría y cierre el lastre, y mire cuál de los dos lo mueve.`,
    },
    pumpCheck: {
      title: 'Prueba de la bomba',
      help: 'El sensor en la bomba sola, todo lo demás cerrado. Anote que el sensor ve el lado de la bomba y encienda la bomba.',
      shouldReach: 'Debería llegar a',
      entered: ({ pressure, good }) => `${pressure}, según lo anotado; hasta ${good} ya es bueno`,
      usual: ({ pressure }) =>
        `${pressure} o menos (práctica común para una bomba de dos etapas, sin fuente); el dato del fabricante de la bomba va primero`,
      within: 'En',
      now: 'Ahora',
      verdicts: {
        not_on: 'La bomba aún no se ha encendido, por lo que dicen la curva y las marcas.',
        wrong_view:
          'No está anotado que el sensor vea el lado de la bomba: esto juzgaría el sistema y no la bomba.',
        too_early: 'Es pronto para saberlo: espere hasta entonces.',
        good: 'Bomba, aceite y manguera están en orden.',
        still_falling:
          'Sigue bajando: deje que se caliente, con el lastre cerrado, y mire otra vez.',
        high_floor:
          'Se queda demasiado alta. Cambie el aceite, en caliente, y pruebe otra vez; luego mire las juntas de la manguera y el lastre.',
        far_too_high:
          'Se queda muy alta. Lo más probable: una manguera o su junta deja entrar aire, o el lastre está abierto; luego el aceite, luego la bomba.',
        rising:
          'Vuelve a subir: una manguera o su junta deja entrar aire, o la bomba se ha parado.',
        sensor: 'El sensor no muestra presión.',
      },
      setView: 'El sensor ve el lado de la bomba',
    },
  },

  report: {
    title: 'Informe de evacuación y retención',
    rehearsalTitle: 'Informe de una práctica de evacuación y retención',
    rehearsalStamp: 'Práctica',
    rehearsalEdge: 'PRÁCTICA en un sistema simulado. No es un trabajo.',
    name: ({ number }) => `Informe ${number}`,
    rehearsalName: ({ number }) => `Práctica ${number}`,
    origin: 'De dónde vienen las lecturas',
    began: 'La grabación empezó',
    readIn: 'Importado',
    length: 'Duración',
    recording: 'Grabación',
    readings: 'Lecturas',
    origins: {
      sensor: { name: 'Un sensor, por radio', statement: '' },
      rehearsal:
        'Una práctica en un sistema simulado. No se midió ningún equipo real; esto no prueba ningún trabajo.',
      import: {
        name: 'Un archivo',
        statement: ({ title }) =>
          `Importado del archivo «${title}». Este programa no oyó las lecturas de un sensor y no puede responder de ellas; el archivo no dice cuándo empezó.`,
      },
      typed_in: {
        name: 'Escrito a mano',
        statement:
          'Leído en un vacuómetro y escrito a mano. Este programa no oyó las lecturas de un sensor y no puede responder de ellas.',
      },
    },
    provisional: ({ at }) =>
      `Todavía se está grabando. Así estaba a los ${at}; el dictamen puede cambiar.`,
    verdict: 'Dictamen',
    ofSensor: ({ heading, number }) => `${heading}, sensor n.º ${number}`,
    ofSensorNamed: ({ heading, number, name }) => `${heading}, sensor n.º ${number} (${name})`,
    undecided: 'Sin decidir: ni aprobado ni rechazado',
    viewNotEntered:
      'Nadie anotó qué veía el sensor: esto vale para lo que estuviera conectado a él, y nada más.',
    mayStillSettle: ({ more }) => `Otros ${more} pueden decidirlo.`,
    mightHaveSettled: ({ more }) => `Otros ${more} de retención podrían haberlo decidido.`,
    foreseen: ({ held, whole }) =>
      `Retenido ${held} de ${whole}: dónde terminaría se prevé por la curva, no se midió.`,
    pumpedAfter:
      'Después de esta retención se evacuó otra vez el sistema: lo que vino luego no queda cubierto por ella.',
    noHold: 'Sin dictamen: no se grabó ninguna retención',
    noHoldWhy:
      'Ni una marca ni la curva muestran que el sistema se aislara. Una evacuación sola no prueba ni que sea hermético ni que esté seco.',
    targetNotReached: ({ target }) => `El objetivo, ${target}, no se alcanzó ni se mantuvo.`,
    targetReached: ({ target, at }) =>
      `El objetivo, ${target}, se alcanzó y se mantuvo, a los ${at} de la grabación.`,
    noReadings: 'Sin dictamen: no hay lecturas',
    numbers: 'Los números detrás',
    curves: 'Curvas',
    wholeCurve: 'La grabación entera',
    holdCurve: 'La retención',
    holdOf: ({ number, of }) => `Retención ${number} de ${of}`,
    poles: 'Un mástil sin nombre no tenía sitio para él; está en la tabla de marcas.',
    holds: 'Retenciones',
    water: 'Agua evacuada',
    stages: 'Etapas',
    byMark: 'una marca',
    byCurve: 'la curva',
    marks: 'Marcas',
    noMarks: 'No se puso ninguna marca.',
    authors: {
      hand: 'a mano',
      rehearsal: 'la práctica',
      import: 'el archivo',
      bridge: 'el puente',
    },
    steps: 'Pasos',
    stepsHelp:
      'Sabido por la curva, por una marca o una palabra a mano, o por la hoja de trabajo. «Nada lo dice»: el trabajo siguió adelante.',
    closingUp: 'Cierre',
    settings: 'Ajustes y criterio de aceptación',
    settingsSource:
      'Lo que nadie anotó es ajuste propio de este programa, no de una norma. La cifra del fabricante del equipo va primero.',
    entries: 'Anotado en la hoja de trabajo',
    noEntries: 'No se anotó nada.',
    takenBack: 'Errores que se corrigieron',
    takenBackHelp:
      'Escritos por error y retirados. No están en ninguna curva ni conclusión; el registro los conserva.',
    nothingInstead: 'nada',
    gaps: 'Huecos',
    noGaps: 'No falta ninguna lectura.',
    restarted: 'el sensor empezó de nuevo',
    silence: 'silencio',
    missing: ({ count }) =>
      many(count, { one: `falta ${count} lectura`, other: `faltan ${count} lecturas` }),
    furtherGaps: ({ count, length }) => `Además ${count} más cortos, ${length} en total.`,
    furtherGapsUncounted: ({ count, length, uncounted }) =>
      `Además ${count} más cortos, ${length} en total, y ${uncounted} cuya duración no se guardó.`,
    sensor: 'Sensor',
    counts: {
      ok: ({ count }) => `${count} medidas`,
      over_range: ({ count }) => `${count} por encima del rango del sensor`,
      under_range: ({ count }) => `${count} por debajo del rango del sensor`,
      warming_up: ({ count }) => `${count} mientras el sensor se calentaba`,
      fault: ({ count }) => `${count} señaladas como avería`,
    },
    label: {
      name: 'El técnico lo llama',
      place: 'Estaba',
      displayStep: 'Su pantalla va en pasos de',
    },
    identity: {
      name: 'Su propio nombre',
      manufacturer: 'Fabricante',
      model: 'Modelo',
      serial: 'Número de serie',
      firmware: 'Firmware',
      id: 'Este ordenador lo conoce como',
    },
    unknown: 'no consta',
    proof: 'Qué prueba una retención de vacío, y qué no',
    proves:
      'Una subida dentro de sus límites muestra que quedaba poca agua, y que no había ninguna fuga gruesa abierta, en la parte que ve el sensor.',
    provesNot:
      'No muestra una fuga que se abre solo bajo presión o con frío, ni una detrás de una válvula cerrada. Encuentra solo fugas gruesas; la hermeticidad la decide la prueba de nitrógeno a presión.',
    integrity: {
      title: '¿Está como se grabó?',
      unbroken: ({ facts }) =>
        `Sí: los ${facts} datos de esta grabación (lecturas, marcas, anotaciones y lo demás que se guardó) son aquellos de los que se calculó esta huella según llegaban:`,
      unbrokenWithJob: ({ facts }) =>
        `Sí: los ${facts} datos de la grabación entera, de la que este trabajo es una parte (lecturas, marcas, anotaciones y lo demás que se guardó), son aquellos de los que se calculó esta huella según llegaban:`,
      addedLater: ({ facts }) =>
        `De ellos, ${facts} se incorporaron a las huellas después de grabarse. Qué eran hasta entonces no lo puede decir nadie.`,
      deleted: ({ facts }) =>
        `Además, ${facts} datos de esta grabación se borraron para siempre; sus huellas siguen ahí.`,
      proves:
        'Guarde esta página. Mientras el registro lleve a esta huella, ninguno de estos datos se ha cambiado, añadido ni quitado desde entonces: npm run verify-record -- --hash, y la huella.',
      provesNot:
        'No muestra que un sensor midiera bien o estuviera donde se dijo, ni que lo tecleado sea cierto. Quien pueda escribir en el ordenador puede volver a calcular todas las huellas; no la de su página.',
      salvaged: 'Salvada de un archivo dañado',
      saved: ({ saved, atLeast, otherSaved, otherAtLeast }) =>
        `De esta grabación se salvaron ${saved} de al menos ${atLeast} lecturas y ${otherSaved} de al menos ${otherAtLeast} de las demás anotaciones.`,
      mayChange:
        'Lo perdido falta en la curva y en las conclusiones, sea cual sea la parte de la grabación de la que trata este informe.',
      notAll: 'No está todo: su archivo se dañó.',
      remains: ({ facts }) =>
        `Lo que queda son ${facts} datos (lecturas, marcas, anotaciones y lo demás que se guardó), de los que se calculó esta huella:`,
      broken: 'Alterada o dañada',
      brokenHow:
        'Hay datos de esta grabación cambiados, añadidos o quitados después de grabarse, o el archivo está dañado. No se fíe de este informe.',
      brokenAt: ({ what, link, where }) => `${what} (eslabón ${link}: ${where}).`,
      breaks: {
        link_unreadable: 'Un eslabón de la cadena no se puede leer',
        link_missing: 'Falta un eslabón de la cadena',
        goes_on_from_nothing: 'La grabación anterior a esta no es aquella a la que siguió',
        fact_missing: 'Falta un dato',
        hash_differs: 'Un dato o un eslabón es otro',
        fact_outside: 'Hay un dato más de los que se grabaron',
      },
    },
    drawnBy: ({ version }) =>
      `Conclusiones sacadas por Ebbline ${version} de los datos de la grabación.`,
    rawData:
      'Las lecturas mismas están en el archivo CSV de esta grabación, del que cualquiera puede volver a sacar las conclusiones.',
    rawDataAttached: ({ files }) =>
      `Las lecturas, y todo lo demás que se grabó, van adjuntas a este archivo (${files}): cualquiera puede volver a sacar de ellas las conclusiones.`,
    jobDataAttached: ({ files }) =>
      `Las lecturas de este trabajo, y todo lo demás que se grabó de él, van adjuntas a este archivo (${files}); lo que la grabación tiene además, no. Cualquiera puede volver a sacar de ellas las conclusiones. La huella, que es de la grabación entera, no se puede calcular de ellas.`,
    page: ({ page, of }) => `Página ${page} de ${of}`,
    hashBegins: ({ hash }) => `Huella ${hash} …`,
    file: ({ number }) => `informe ${number}`,
    rehearsalFile: ({ number }) => `informe de práctica ${number}`,
    signOff: 'Firmas',
    noSignOff: 'Nada que firmar: era una práctica.',
    signers: ['Trabajo hecho por', 'Visto por'],
    signColumns: ['Nombre', 'Firma', 'Fecha'],
    signedBy: 'Firmado por',
    licence: 'Licencia',
    signedAt: 'El',
    signRemark: 'Observación',
    signedFor: 'Por esta conclusión',
    drawnThen: 'Sacada entonces por',
    signedBefore: ({ length }) =>
      `El trabajo siguió ${length} después de firmarse. Lo que se grabó entonces no está firmado; mire su dictamen arriba.`,
    signedOther:
      'Esto se firmó por otro tramo de la grabación que el de este informe: no se fíe de ello.',
    signedHow:
      'Nombre, licencia y observación según se escribieron; el programa no ha comprobado quién los escribió.',
    signedThere:
      'Esta grabación se tomó de otro registro. Una firma que vino con ella está como la tiene el archivo: nada aquí muestra quién la escribió ni cuándo.',
    jobOf: ({ number, at }) =>
      `${number}, de ella el trabajo que empieza ${at} después del comienzo`,
    takenFrom: ({ number, at, software }) =>
      `Tomada de otro registro, donde era la grabación ${number}, empezada el ${at}, escrita por Ebbline ${software}.`,
    rehearsedByFile: 'El archivo del que se importó dice que era una práctica.',
    heldThere: 'Sus datos estaban sin alterar cuando se tomaron.',
    notHeldThere: 'No se pudo mostrar que sus datos estuvieran sin alterar cuando se tomaron.',
    marksTakenBack: 'Marcas por error',
    marksTakenBackHelp:
      'Puestas por error y retiradas. Ninguna etapa ni conclusión se apoya en ellas; el registro las conserva.',
    calibrated: 'Última calibración (según se escribió)',
    columns: {
      at: 'A los',
      clock: 'Hora',
      step: 'Paso',
      known: 'Estado, y cómo se sabe',
      mark: 'Marca',
      setBy: 'Puesta por',
      stage: 'Etapa',
      began: 'Empezó',
      lasted: 'Duró',
      knownBy: 'Se sabe por',
      from: 'Desde',
      what: 'Qué ocurrió',
      entry: 'Entrada',
      value: 'Valor',
      typed: 'Escrito',
      instead: 'En su lugar',
      takenBack: 'Retirado',
      verdict: 'Dictamen',
      inflow: 'Entrada constante',
      pumped: 'Evacuado antes',
      hold: 'Retención',
      rose: 'Subió',
      pullDown: 'Evacuación desde',
      water: 'Agua',
      seen: 'Visto',
    },
  },

  nitrogen: {
    title: 'Prueba con nitrógeno',
    gauge: ({ amount }) => `${amount} (manométrica)`,
    pressure: ({ unit }) => `Presión, ${unit} (manométrica)`,
    unit: 'Las presiones se leen en',
    unitName: ({ unit }) => `${unit} (manométrica)`,
    before: [
      'Sensor de vacío desmontado, o con su válvula cerrada, antes de meter presión.',
      'Solo nitrógeno seco, con regulador y con dispositivo de alivio. Nunca oxígeno ni aire.',
      'Nunca por encima de la presión de prueba del fabricante: el lado de baja puede aguantar menos que el de alta.',
    ],
    during: [
      'Apártese mientras sube la presión, y que nadie apriete una unión bajo presión.',
      'Cierre el cilindro y quite su manguera: una válvula que deja pasar esconde una fuga.',
    ],
    after: [
      'Suelte el nitrógeno despacio, al aire libre o con el local ventilado: desplaza el oxígeno.',
      'Abra el sensor solo cuando el manómetro esté en cero: la presión de prueba lo destruye.',
    ],
    entry: 'Leer ahora',
    temperature: ({ unit }) => `Temperatura del metal, ${unit}`,
    step: 'Qué presión de la serie',
    justFilled: 'Recién llenado: el gas aún no se ha asentado',
    note: 'Observación',
    enter: 'Anotar',
    wrong: {
      pressure:
        'Presión: no puede ser. Escriba lo que marca el manómetro como número simple, sin signo de millares.',
      temperature: 'Metal: no puede ser. Escriba un número o déjelo vacío.',
      when: 'Leído a: no puede ser. Escriba una hora como 12:40, o −20 min, o −24 h (hasta 7 días atrás), o déjelo vacío para ahora.',
      step: 'Qué presión de la serie: escriba un número entero del 1 al 9.',
      tooMany: 'Ya hay tantas lecturas como se guardan. Quite alguna primero.',
    },
    unusual: ({ said }) => `${said} no es usual en esta prueba. ¿Es así, o la unidad es otra?`,
    itIsSo: ({ said }) => `Son ${said}`,
    aboveMost: ({ most }) =>
      `Eso supera ${most}, que usted anotó como lo máximo que permite el fabricante.`,
    readings: 'Lecturas',
    stepName: ({ step }) => `Presión ${step}`,
    filled: 'recién llenado',
    noTemperature: 'metal sin medir',
    takeAway: 'Quitar',
    takeAwayNamed: ({ reading }) => `Quitar: ${reading}`,
    none: 'Aún no se ha leído nada. Llene, espere un cuarto de hora a que el gas tome la temperatura del metal y lea manómetro y termómetro: ese es el inicio.',
    settling: ({ at }) =>
      `Recién llenado: espere hasta las ${at} y lea entonces el inicio. Lo que haga el gas hasta entonces no es una fuga.`,
    begun: ({ pressure, at }) =>
      `Empezada a las ${at} con ${pressure}. Vuelva a leer manómetro y termómetro pasado un rato.`,
    verdicts: {
      holds: 'Aguanta: ninguna pérdida que cuente',
      leaks: 'Fuga: falta más de lo que explica la temperatura',
      undecided: 'Sin decidir',
      not_settled: 'Temperatura sin asentar',
    },
    reservations: {
      just_filled: 'El inicio se leyó antes de que el gas se asentara: lea un inicio nuevo.',
      temperatures_apart:
        'El metal ha cambiado más de lo que un solo termómetro puede decir de todo el gas: espere a que esté como al inicio.',
      temperature_unknown: 'No se midió el metal en ambas lecturas.',
      too_soon:
        'Una fuga que cuente aún no se habría notado; un manómetro y un termómetro más finos necesitan menos tiempo.',
      too_little:
        'Muy poca presión para probar algo: llene hasta al menos 1 bar (manométrica), y hasta la presión de prueba para una prueba que cuente.',
      filled_again:
        'Rellenado tras una pérdida: busque la fuga, marque «recién llenado» y lea un inicio nuevo.',
      risen:
        'La presión subió más de lo que explica la temperatura: ¿está cerrado el cilindro y está el termómetro sobre el metal?',
    },
    stands: ({ expected, now }) => `Por temperatura debería marcar ${expected}; marca ${now}.`,
    missing: ({ amount }) => `Falta: ${amount}.`,
    more: ({ amount }) => `Más de lo esperado: ${amount}.`,
    nothing: ({ amount }) =>
      `Ninguna diferencia más allá de lo que pueden errar manómetro y termómetro: ${amount} a cada lado.`,
    realGas: ({ amount, by }) =>
      `La temperatura sola la cambia en ${amount}; ${by} de ello porque a esta presión el nitrógeno no es un gas ideal (segundo coeficiente del virial, Kaye y Laby).`,
    noLoss: ({ length, rate }) =>
      `Ninguna pérdida vista; en ${length} se habría notado una de ${rate}`,
    leastSeen: ({ length, rate }) =>
      `En ${length} se habría notado una pérdida de ${rate} o más; una menor, no.`,
    leastFlow: ({ flow }) => `Eso es ${flow} de nitrógeno a esta presión.`,
    lossFlow: ({ flow }) => `Pierde ${flow} de nitrógeno a esta presión.`,
    counts: ({ rate }) =>
      `Cuenta desde ${rate}: el límite de la hoja bajo vacío, tantas veces como la presión supera a la del aire.`,
    perHour: ({ amount }) => `${amount} por hora`,
    wait: ({ more }) => `Vuelva a leer dentro de ${more}.`,
    own: 'Su manómetro y su termómetro',
    accuracy: 'Clase del manómetro, %',
    accuracyOf: 'de',
    ofWhat: { full_scale: 'toda la escala', reading: 'la lectura' },
    fullScale: ({ unit }) => `Fondo de escala, ${unit} (manométrica)`,
    finest: ({ unit }) => `El paso más fino que puede leer, ${unit}`,
    thermometer: ({ unit }) => `Error del termómetro, ${unit}`,
    ambient: 'Presión del aire, kPa (absoluta), si se conoce',
    makersMost: ({ unit }) => `Lo máximo que permite el fabricante, ${unit} (manométrica)`,
    wrongGauge: ({ name }) => `${name}: no puede ser. Escriba un número con sentido.`,
    errors:
      'El mismo manómetro, sin desconectarlo: casi todo su error es igual las dos veces y se anula; se toma que un tercio de su clase no. El termómetro puede errar de nuevo cada vez, y el gas puede quedarse atrás un cuarto de un cambio. Ajustes nuestros.',
    stepsTitle: 'Presiones por orden',
    stepNames: {
      usual: 'Lo usual',
      'ufgs-15741n': 'Una especificación',
      'ufgs-15182': 'Otra especificación',
    },
    noSource: 'Práctica común, sin fuente.',
    makersPressure: 'la presión de prueba del fabricante',
    forAtLeast: ({ pressure, length }) => `${pressure} durante ${length}`,
    makerFirst: 'Las cifras del propio fabricante van primero.',
    count: ({ count, last }) =>
      many(count, { one: `1 lectura, ${last}`, other: `${count} lecturas, la última ${last}` }),
    class: ({ percent, ofWhat }) => `${percent} % de ${ofWhat}`,
    columns: {
      step: 'Orden',
      shown: 'Marcaba',
      metal: 'Temperatura del metal',
      remark: 'Observación',
    },
    byGauge: ({ accuracy }) => `Leído en un manómetro de clase ${accuracy}.`,
  },

  cycles: {
    title: 'Barridos con nitrógeno',
    ofPlan: ({ number, of }) => `Evacuación ${number} de ${of}`,
    next: {
      pull_down: ({ which, target }) => `${which}: hasta ${target}.`,
      hold: ({ which, length }) => `${which}: aísle y reténgala ${length}.`,
      break: ({ which, pressure }) =>
        `${which} terminada: rompa el vacío con nitrógeno seco hasta ${pressure} y siga.`,
      done: ({ of }) => `Las ${of} evacuaciones están hechas. Decide la última retención.`,
    },
    open: 'Barridos con nitrógeno…',
    noPlan: 'No hay nada previsto. Lo hecho se muestra igualmente.',
    noCycles: 'Aún no hay ninguna evacuación.',
    number: ({ number }) => `Evacuación ${number}`,
    cameTo: ({ depth }) => `llegó a ${depth}`,
    notSeen: 'profundidad no vista',
    target: ({ target, outcome }) => `objetivo ${target}: ${outcome}`,
    reached: 'alcanzado',
    notReached: 'no alcanzado',
    held: ({ length }) => `retenida ${length}`,
    heldTooShort: ({ length, asked }) => `retenida ${length}, de los ${asked} que se piden`,
    brokenAt: ({ pressure }) => `vacío roto a ${pressure}`,
    notMarked:
      'algo entró deprisa y nadie lo marcó como nitrógeno: no cuenta como barrido (una fuga grande se ve igual)',
    wasBreak: ({ at, pressure }) =>
      `Desde ${at} se llenó hasta ${pressure}, se quedó quieto ahí y se volvió a evacuar: ¿fue un barrido con nitrógeno?`,
    markBreak: 'Sí, marcarlo como nitrógeno',
    water: ({ amount }) => `agua evaporada: ${amount}`,
    airLeft: ({ parts }) =>
      `Del aire del inicio queda en el mejor caso 1 parte en ${parts}, si el nitrógeno se mezcló cada vez con todo. Los extremos ciegos que no se mezclan guardan más. No dice nada del agua en el aceite, en las paredes o líquida.`,
    trend: {
      too_few: 'Si se seca se verá cuando dos evacuaciones se hayan retenido igual.',
      drying: 'Cada subida termina más baja que la anterior: se está secando.',
      levelling: 'Cada subida se estabiliza más baja: se está secando.',
      same: 'Las subidas son iguales: no se seca, o lo que sube es una fuga.',
      more: 'Una subida posterior es mayor que una anterior: no se seca, o ha aparecido una fuga.',
      unlike: ({ why }) => `No se puede decir si se seca: las retenciones difieren (${why}).`,
      compared: ({ length, rises }) =>
        `Subido desde medio minuto hasta ${length} después de aislar: ${rises}.`,
    },
    unlike: {
      too_short: 'una es más corta de 4 min',
      start: 'empezaron a presiones distintas',
      length: 'duraron distinto',
      temperature: 'en una de ellas el metal estaba más caliente',
      temperature_unknown: 'nadie midió el metal en cada una',
    },
    waterAll: ({ amount }) => `Agua evaporada hasta ahora: ${amount}.`,
    flooded:
      'Eso es un charco, y el nitrógeno no diluye un charco: drene los puntos bajos, sóplelos con nitrógeno, caliéntelos, cambie el aceite de la bomba y siga después.',
    plan: 'Lo previsto',
    from: 'Profundidades de',
    sources: { own: 'Propias', teaching: 'Tres profundidades, como se enseñan en los cursos' },
    teachingSource:
      'Vistas en textos de cursos, que no citan fuente. Las del fabricante del equipo van primero.',
    depth: ({ number, unit }) => `Profundidad ${number}, ${unit}`,
    holdMin: ({ number }) => `Retención ${number}, min, si la hay`,
    breakTo: ({ unit }) => `Vacío roto hasta, ${unit} (manométrica)`,
    add: 'Una más',
    remove: 'Una menos',
    enter: 'Anotar',
    wrong:
      'Este plan no puede ser. Escriba una profundidad para cada evacuación, y minutos o nada para su retención.',
    caution:
      'Nitrógeno seco con regulador y dispositivo de alivio; nunca oxígeno. Cierre antes el sensor si no lo soporta, y nunca por encima de la presión del fabricante.',
  },

  hunt: {
    title: 'Búsqueda de la fuga',
    steps: [
      'Primero el sensor solo: cierre su válvula 3 minutos. Eso prueba o descarta sus propias uniones.',
      'Luego cierre una sección tras otra, evacúela, aísle, y toque aquí cuál ve el sensor.',
      'Una sección sube por lo que entra en ella: la que tiene la fuga sigue subiendo.',
    ],
    seesNow: 'El sensor ve ahora',
    system: 'Todo el sistema',
    stub: 'El sensor solo',
    pump_side: 'El lado de la bomba',
    section: 'Una sección',
    another: 'Otra sección',
    name: 'Su nombre',
    tap: 'Ve esta',
    noHolds: 'Aún no hay retención: aísle, y lo que suba se verá aquí.',
    from: ({ at, length }) => `desde ${at}, ${length}`,
    verdicts: {
      leaks: 'Tiene fuga',
      no_leak: 'Sin fuga que cuente',
      undecided: 'Sin decidir',
      not_told: 'No se puede decir',
    },
    rises: ({ rate }) => `subida constante ${rate}`,
    flow: ({ flow }) => `entrada ${flow}`,
    lessStub: ({ flow }) => `sin las uniones del sensor ${flow}`,
    tooFast: 'subió demasiado rápido para ajustarlo: una fuga grande, o gas que se dejó entrar',
    noVolume: 'volumen desconocido: no se puede decir cuánto entra',
    curve: ({ part }) => `Subida de: ${part}`,
    finding: {
      not_tested: 'El sensor aún no se ha retenido solo: puede ser su propia unión la que fuga.',
      excluded: 'Las uniones del sensor quedan descartadas: por ahí entra demasiado poco.',
      explains:
        'Todo puede entrar por las uniones del sensor. Repárelas y retenga de nuevo: nada se aprueba restándolo.',
      part: 'Una parte entra por las uniones del sensor. Repárelas y retenga de nuevo.',
      suspect:
        'El sensor solo sube mucho más rápido que el conjunto: sus uniones son sospechosas. Su volumen diría cuánto entra.',
      undecided: 'Las uniones del sensor aún no están ni descartadas ni confirmadas.',
    },
    place: {
      no_sections: 'Aún no se ha retenido ninguna sección por separado.',
      found: ({ name, chance }) => `La fuga está en: ${name} (${chance}).`,
      several: ({ names, chance }) => `Fuga más de una: ${names} (${chance}).`,
      none_of_them: ({ chance }) =>
        `En ninguna de las retenidas (${chance}): mire lo que las une, y lo que no se ha retenido.`,
      undecided: 'Sin decidir: reténgalas más tiempo, o de nuevo.',
      likeliest: ({ name, chance }) =>
        `Sin decidir. La más probable hasta ahora: ${name} (${chance}).`,
      sensor_first: 'Sube todo lo que se retuvo: retenga primero el sensor solo.',
    },
    pastValve:
      'O pasa gas por una válvula cerrada desde un lado que aún tiene su carga: desde fuera nada lo muestra.',
    pastValveLikely:
      'La prueba con nitrógeno aguantó: entonces más bien es gas que pasa por una válvula cerrada desde un lado que aún tiene su carga.',
    stubVolume: 'Volumen de sensor, manguera y racores tras esa válvula, mL',
    enter: 'Anotar',
    wrongVolume: 'Volumen: no puede ser. Escriba un número de mililitros, o déjelo vacío.',
    sensors: {
      title: 'Todos los sensores juntos',
      waits: ({ names }) => `Falta todavía: ${names}.`,
      waitsFor: ({ names, more }) => `Falta todavía: ${names}, otros ${more}.`,
      seenBy: ({ names }) => `lo ve ${names}`,
      awaits: ({ names }) => `espera a ${names}`,
      atPump: 'Uno que esté en la bomba no cuenta aquí, una vez dicho su sitio.',
    },
  },
};
