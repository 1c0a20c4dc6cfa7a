// Small helpers of the Spanish words, and the words themselves: one for each
// thing, the same on every screen and in internal/feedstock/names.es.tsv.
//
//   bin        compostera        tray       bandeja
//   worms      lombrices         castings   humus
//   bedding    lecho             scraps     restos
//   bowl       bol               ration     ración
//   feeding    comida            fed        les di (whoever presses says it)
//   leftovers  sobras            look       revisión, revisar
//   spot       sitio             harvest    cosecha
//   liquid     líquido           base       base
//   cocoon     capullo           adult      adulta
//   household  hogar             keeper     responsable
//   entry      anotación         log        registro
//   timeline   diario            exchange   sincronización
//   phone      teléfono (neither "móvil" nor "celular")
//   waste      basura            freezer    congelador
//
// The reader is "tú". Fruit and vegetables go by Spain's names; the catalogue's
// search knows the American ones.

/** "1 día", "3 días". */
export const n = (count: number, one: string, many: string): string =>
	`${count} ${count === 1 ? one : many}`;

/** "las 18:40", "la 1:05". */
export const las = (time: string): string => (/^0?1\D/.test(time) ? `la ${time}` : `las ${time}`);

/** "1 día", "3 días", of a count that is written already. */
export const days = (count: string): string => (count === "1" ? "1 día" : `${count} días`);
