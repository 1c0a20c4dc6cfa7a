// Spanish words of the shell, the sync line, Join and Household.

import type { Text } from "../../strings.ts";
import { las, n } from "./words.ts";

/** "3 min", "2 h 5 min", "4 días": how far a clock is off. */
function span(ms: number): string {
	const minutes = Math.round(Math.abs(ms) / 60_000);
	if (minutes < 60) return `${minutes} min`;
	const hours = Math.floor(minutes / 60);
	if (hours >= 48) return n(Math.round(hours / 24), "día", "días");
	return minutes % 60 === 0 ? `${hours} h` : `${hours} h ${minutes % 60} min`;
}

const entries = (count: number): string => n(count, "anotación", "anotaciones");

export const app: Text["app"] = {
	name: "Trayside",
	title: (screen) => `${screen} · Trayside`,
	skip: "Saltar a la página",
	places: "Lugares",
	today: "Hoy",
	weigh: "Pesar",
	timeline: "Diario",
	household: "Hogar",
	join: "Unirse",
	tray: "Bandeja",
	code: "Abrir una etiqueta",
	starting: "Abriendo el registro del hogar…",
	arriving: "Están llegando las anotaciones del hogar",
	arrivingLead:
		"Hasta que estén todas, una ración sería una suposición con medio registro. Entretanto se pueden pesar restos.",
	toWeigh: "Pesar restos",
	notFound: "En esta dirección no hay ninguna página.",
	toToday: "Ir a Hoy",
	more: "Más",
	language: "Idioma",
	timelineLead: "Todo lo que se anotó, día a día",
	householdLead: "Personas, teléfonos, sincronización, este teléfono",
	updateReady: "Hay una nueva versión de Trayside.",
	updateNow: "Usarla ya",
	updateKeeps: "Lo que has escrito se conserva.",
	storageBlocked:
		"Hay otra pestaña abierta con un Trayside más antiguo. Ciérrala y esta seguirá sola.",
	storageOutdated: "En otra pestaña se abrió un Trayside más nuevo. Recarga para seguir aquí.",
	storageLocked:
		"Este Trayside es más antiguo que el que escribió el almacenamiento de este teléfono. Puedes leer y exportar; guardar tendrá que esperar a la versión más nueva.",
	storageBroken:
		"Este navegador no da almacenamiento, así que no se podría conservar nada. Si es una ventana privada, abre una normal; si no, libera espacio y recarga.",
	engineBroken:
		"La parte que calcula las raciones no arranca en este teléfono. No se ha perdido nada: exporta las anotaciones en Hogar y recarga.",
	draftFault:
		"No se pudo poner a salvo lo que estás escribiendo: el almacenamiento del teléfono está lleno. Guárdalo antes de salir de esta página.",
	missing: "No se pudo cargar la parte de la app para esta página. No se ha perdido nada.",
	reload: "Recargar",
	clockAhead: (ms) =>
		`El reloj de este teléfono va ${span(ms)} por delante del reloj del hogar. Las anotaciones siguen en el orden correcto; ponlo en hora para que los días y las horas sean exactos.`,
	clockBehind: (ms) =>
		`El reloj de este teléfono va ${span(ms)} por detrás del reloj del hogar. Las anotaciones siguen en el orden correcto; ponlo en hora para que los días y las horas sean exactos.`,
};

export const sync: Text["sync"] = {
	waiting: (count) =>
		count === 0
			? "Nada espera en este teléfono"
			: `${n(count, "anotación espera", "anotaciones esperan")} en este teléfono`,
	pictures: (count) => `${n(count, "foto espera", "fotos esperan")} en este teléfono`,
	shared: "Todo compartido",
	heard: (when) => `al día: ${when}`,
	neverHeard: "aún sin noticias del hogar",
	fetching: (count) => `recibiendo lo que anotó el hogar, ${count} hasta ahora`,
	refused: (count) => `${n(count, "anotación", "anotaciones")} sin aceptar`,
	busy: "sincronizando",
	noAnswer: {
		offline: "Sin conexión",
		unreachable: "El servidor no responde",
		certificate: "El certificado del servidor no es válido",
		timeout: "El servidor tarda demasiado",
	},
	offline: "Sin conexión",
	portal: "Esta red pide antes iniciar sesión",
	auth: "El servidor no acepta la clave de este teléfono",
	revoked: "Este teléfono se quitó del hogar",
	problem: "La sincronización tiene problemas",
	details: {
		storage: "este teléfono no pudo guardar lo que recibió",
		"too-big": "una anotación es demasiado grande para el servidor",
		missing: "este teléfono perdió el texto de una anotación sin compartir",
		differs: "teléfono y servidor aún difieren tras compararse; lo intentarán otra vez",
		later: "el servidor está ocupado y aceptará las anotaciones más tarde",
		forbidden: "el servidor rechaza este teléfono y no dice por qué",
		server: "el servidor tiene problemas propios",
	},
	mayMiss: "Una ración quizá no sepa de la comida que dio otra persona.",
	now: "Sincronizar ahora",
	title: "Sincronización con el hogar",
};

export const join: Text["join"] = {
	title: "Unirse a un hogar",
	label: (code) => `Abriste la etiqueta ${code}. Se abrirá cuando este teléfono se haya unido.`,
	lead: "Un responsable del hogar te enseña un código: en su teléfono, en Hogar, Añadir un teléfono; el primero de todos está en la ventana del servidor.",
	code: "Código",
	codeHint: "8 letras y cifras; las mayúsculas y los guiones no importan",
	phoneName: "Nombre de este teléfono",
	phoneNameHint: "Para que los demás sepan cuál es, p. ej. Teléfono de Ada",
	defaultPhone: "Teléfono",
	submit: "Unirse",
	fromLink: "La invitación de tu enlace está lista.",
	otherCode: "Escribir otro código",
	demo: "Ver el hogar de demostración",
	demoLead: "Este servidor muestra un hogar inventado. Puedes probarlo todo en él.",
	sending: "Preguntando al servidor…",
	waitTitle: "Esperando a un responsable",
	waitLead: "Compara este número con el del teléfono del responsable. Allí se confirma.",
	waitNumber: "Número",
	cancel: "Dejar de esperar",
	faults: {
		offline: "No hay conexión. El código se conserva: reinténtalo cuando haya.",
		unreachable: "El servidor no responde. El código se conserva: reinténtalo en un momento.",
		certificate:
			"El certificado del servidor no es válido, así que no se envió nada. Pregunta a quien lleva el servidor.",
		timeout: "El servidor tardó demasiado. El código se conserva: reinténtalo.",
		portal:
			"Otra cosa respondió en lugar del servidor: seguramente esta red pide iniciar sesión. Abre cualquier página web, inicia sesión y reinténtalo.",
		"invite-unknown":
			"Ninguna invitación tiene este código. Compáralo con la pantalla del responsable.",
		"invite-expired":
			"Esta invitación ha caducado: dura diez minutos. Pide una nueva a un responsable.",
		"invite-used": "Esta invitación ya se usó. Pide una nueva a un responsable.",
		"too-many": "Demasiados intentos. Espera un minuto y reinténtalo.",
		declined: "El responsable no confirmó este teléfono. Pide una nueva invitación.",
		storage:
			"Este teléfono no pudo guardar su clave: su almacenamiento está lleno o cerrado. Libera espacio y reinténtalo.",
		other: "El servidor no aceptó esto.",
	},
	installTitle: "Primero instala, después únete",
	installLead:
		"En un iPhone o iPad, la app de la pantalla de inicio y el navegador guardan las cosas por separado. Únete desde la app, o tus anotaciones se quedarían en el navegador.",
	installSteps: [
		"Toca Compartir en la barra del navegador.",
		"Elige Añadir a pantalla de inicio.",
		"Abre Trayside desde la pantalla de inicio y escribe allí el código de la invitación.",
	],
	installBrowser: "Usarlo solo en este navegador",
	wiped: {
		lost: "Este teléfono se quitó del hogar: un responsable avisó de que se había perdido, así que se borró solo. Si lo has recuperado, únete otra vez con una nueva invitación.",
		left: "Has salido del hogar.",
		removed:
			"Este teléfono se quitó del hogar: un responsable dice que ya no se usa. Para volver, pide una nueva invitación.",
	},
	wipedEmpty: "No queda en él nada del hogar.",
	keptTitle: "Aún en este teléfono",
	kept: (count) =>
		`${entries(count)} del hogar; puede que no estén en ningún otro sitio. Expórtalas ahora: al unirse a otro hogar se borran.`,
	keptForget: "Borrarlas de este teléfono",
	keptForgetSure: (count) => `Sí, borrar ${entries(count)}`,
	setupTitle: "Pon nombre a tu hogar",
	setupLead: "Tú llevas el hogar desde el principio. Todo se puede cambiar después.",
	householdName: "Nombre del hogar",
	ownName: "Tu nombre",
	zone: "Zona horaria",
	zoneHint: "Decide cuándo empieza el día en el hogar",
	mass: "Pesos en",
	massG: "gramos",
	massOz: "libras y onzas",
	temp: "Temperaturas en",
	tempC: "°C",
	tempF: "°F",
	setupSave: "Guardar y empezar",
	needName: "Escribe un nombre.",
	notSaved: {
		full: "No se guardó: el almacenamiento del teléfono está lleno. Libera espacio y reinténtalo; lo que escribiste sigue aquí.",
		locked:
			"No se guardó: un Trayside más nuevo escribió el almacenamiento de este teléfono. Recarga para tenerlo.",
		broken:
			"No se guardó: falló el almacenamiento de este teléfono. Reinténtalo; lo que escribiste sigue aquí.",
		slip: "No se guardó: mira otra vez las cantidades.",
		refused: (why) => `No se guardó: ${why}.`,
	},
};

// By code alone: the server's own sentence is English.
export const problems: Text["problems"] = {
	letters: (_, letters) =>
		`las etiquetas tienen letras latinas, griegas, cirílicas, armenias y georgianas, y no estas: ${letters}. Para el papel, pon a la bandeja o compostera un nombre con aquellas, o imprímelo con signos de interrogación: el cuadro y el código de debajo abren la bandeja igual.`,
	unprintable: () =>
		"con estas medidas no se puede imprimir. Revisa las medidas y los márgenes, o pide menos páginas de una vez.",
	role: () => "eso solo lo puede hacer el teléfono de un responsable.",
	"invite-unknown": () => "esa invitación no existe.",
	"invite-used": () => "esa invitación ya se usó. Crea una nueva.",
	"invite-expired": () => "esa invitación ha caducado: dura diez minutos. Crea una nueva.",
	"not-waiting": () => "ningún teléfono espera ya con esa invitación.",
	"too-many": () => "demasiados intentos a la vez. Espera un momento.",
	"unknown-device": () => "el hogar no conoce este teléfono. Pide una invitación a un responsable.",
	"device-revoked": () =>
		"este teléfono se quitó del hogar. Un responsable puede invitarlo de nuevo.",
	internal: () =>
		"algo falló en el servidor; su registro dice qué. No se ha perdido nada de lo que hay en el teléfono.",
	stopping: () => "el servidor se está apagando. Reinténtalo en un momento.",
	"no-space": () => "el disco del servidor está casi lleno. No se ha perdido nada.",
};

export const code: Text["code"] = {
	title: "Abrir una etiqueta",
	label: "Código bajo la etiqueta",
	hint: "Las mayúsculas y los guiones no importan",
	open: "Abrir",
	empty: "Escribe el código que está bajo la etiqueta.",
};

export const household: Text["household"] = {
	title: "Hogar",
	unnamed: "Hogar sin nombre",
	members: "Personas",
	member: { keeper: "responsable", feeder: "da de comer", viewer: "solo mira", "": "sin teléfono" },
	child: "menor",
	phones: "Teléfonos",
	mine: "este teléfono",
	phoneGone: {
		lost: "perdido",
		left: "salió",
		removed: "retirado",
		adrift: "ningún responsable lo avala",
	},
	console: "el propio servidor",
	remove: "Quitar este teléfono",
	removeTitle: (name) => `Quitar ${name}: ¿por qué?`,
	removeStays:
		"El servidor lo rechaza en cuanto lo sabe. Lo que anotó se queda, y también los teléfonos que dejó entrar.",
	removeLead: {
		lost: "¿En manos ajenas? Se borra solo cuando vuelva a conectarse. No hay garantía: un teléfono que nunca se conecta conserva lo que tiene.",
		removed:
			"¿Vendido, roto o guardado en un cajón? Aún podrá exportar sus anotaciones cuando vuelva a conectarse.",
	},
	removeWhy: { lost: "Perdido: borrarlo", removed: "Ya no se usa" },
	removeNot: "Conservar este teléfono",
	removed: (name) =>
		`${name}: retirado. El servidor lo sabrá con la próxima sincronización de este teléfono; el retirado, cuando vuelva a conectarse.`,
	phoneOf: (who, role) => `${who} · ${role}`,
	addPhone: "Añadir un teléfono",
	addMember: "Otra persona",
	memberName: "Nombre",
	isChild: "Es menor",
	whose: "¿De quién es el teléfono?",
	role: "Puede",
	roles: {
		keeper: "todo, también teléfonos y etiquetas",
		feeder: "dar de comer y revisar",
		viewer: "solo mirar",
	},
	makeInvite: "Crear una invitación",
	inviteTitle: "Invitación",
	inviteLead:
		"Escanea esto con el otro teléfono, o escribe el código en la dirección de este servidor. Dura diez minutos y sirve una vez.",
	inviteQr: "Código cuadrado con la dirección de la invitación",
	inviteCode: "Código",
	inviteLink: "Enlace",
	inviteEnds: (at) => `Termina a ${las(at)}.`,
	inviteStop: "Retirar la invitación",
	waitingTitle: "Espera para unirse",
	waitingLead: "Confirma solo si el otro teléfono muestra el mismo número.",
	waitingPhone: (device, number) => `${device}: número ${number}`,
	confirm: "El número coincide: dejarlo entrar",
	confirmed: (device) => `${device} ya está en el hogar.`,
	exchange: "Sincronización",
	thisPhone: "Este teléfono",
	storageKept: "El navegador ha prometido conservar las anotaciones.",
	storageLoose:
		"El navegador puede borrar las anotaciones cuando falte espacio. Compártelas a menudo.",
	exportAll: "Exportar las anotaciones de este teléfono",
	exported: "El archivo está listo.",
	drawer: "Sin aceptar",
	drawerLead: "El hogar no aceptó estas anotaciones. Se conservan aquí hasta que las descartes.",
	drawerExport: "Exportarlas",
	drawerDiscard: "Descartar",
	drawerWhy: {
		role: "este teléfono no puede anotar esto",
		invalid: "mal formada",
		"too-big": "demasiado grande",
	},
	attention: (count) =>
		count === 1
			? "1 anotación necesita que la mires: tiene un valor no válido."
			: `${count} anotaciones necesitan que las mires: tienen un valor no válido.`,
	unread: (count) =>
		`${n(count, "anotación necesita", "anotaciones necesitan")} un Trayside más nuevo.`,
	leave: "Salir del hogar",
	leaveTitle: "¿Salir del hogar?",
	leaveLead:
		"Se avisa a los demás y luego se borran las anotaciones de este teléfono. Los demás conservan las suyas.",
	leaveLastKeeper:
		"No queda ningún otro responsable. Después, solo la consola del servidor podrá dejar entrar a alguien.",
	leaveUnshared: (count) =>
		count === 1
			? "1 anotación está solo en este teléfono. Expórtala antes de salir, o se perderá."
			: `${count} anotaciones están solo en este teléfono. Expórtalas antes de salir, o se perderán.`,
	leavePictures: (count) =>
		count === 1
			? "1 foto está solo en este teléfono y no va en la exportación. Intercambia antes de salir, o se perderá."
			: `${count} fotos están solo en este teléfono y no van en la exportación. Intercambia antes de salir, o se perderán.`,
	leaveDiscard: (count) => `Descartar ${entries(count)} y salir`,
	leaveNow: "Salir",
	leaveStay: "Quedarse",
	leaveUnheard: "No se pudo avisar al hogar: el servidor no responde a este teléfono.",
	leaveListed:
		"Si sales de todos modos, el hogar lo tendrá en su lista hasta que un responsable lo quite.",
	leaveUntold: "Salir sin avisar",
	needConnection:
		"Para esto hace falta el servidor, y no responde. Reinténtalo cuando haya conexión.",
	failed: (why) => `No funcionó: ${why}`,
	keeperOnly: "Solo un responsable puede añadir un teléfono.",
};
