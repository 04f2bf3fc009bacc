package tracksoak.report.roster.store;

/**
 * How a store deals with its database; tests make it impatient or short of room.
 *
 * @param busyMs how long a writer waits for another, in ms; SQLite only
 * @param mostPages most pages of the file, 0 for no limit; SQLite only
 */
record Settings(int busyMs, int mostPages) {

    static final Settings USUAL = new Settings(10_000, 0);
}
