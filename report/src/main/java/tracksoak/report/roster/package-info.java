/**
 * The roster: the crew's shared table of drives, and which of them are trusted for which session.
 *
 * <p>All that is kept are signed events ({@link tracksoak.report.roster.event.RosterEvent}): a record entered, a tag, a note, a withdrawal, a
 * restoration, a settlement, a key added or revoked. Nothing is changed or deleted. The state of each drive is a pure function of
 * the set of its events, so two rosters that have the same events show the same, whatever order they came in.
 *
 * <h2>Opening</h2>
 *
 * <pre>{@code
 * try (Roster roster = Roster.open(RosterPlace.sqlite(data.resolve(RosterPlace.FILE)), clock)) {   // or RosterPlace.postgres(url, user, password)
 *     TesterKey me = TesterKeys.openOrCreate(data, userName);
 *     RosterDesk desk = roster.desk(me);
 * }
 * }</pre>
 *
 * {@code clock} is a {@link java.time.InstantSource}. A Roster may be shared by any number of threads; open it once. Opening loads a database
 * driver (and Flyway where the schema is not there yet), so commands that do not touch the roster must not open one.
 *
 * <h2>Reading</h2>
 *
 * <ul>
 *   <li>{@link tracksoak.report.roster.Roster#board board(BoardQuery)}: the table. {@code BoardQuery.all(session)}, {@code .tonight(session)},
 *       narrowed by {@code .only(standings)}, {@code .with(text)}, {@code .by(sort, descending)}, {@code .page(offset, limit)}. A null session asks for each drive's
 *       own latest session. Answers {@link tracksoak.report.roster.Board}: rows, count found, counts per standing, version.
 *   <li>{@link tracksoak.report.roster.Roster#drive drive(tagOrId, session)}: one {@link tracksoak.report.roster.BoardRow}; {@code standings(tagOrId, sessions)}: one
 *       drive for many sessions; {@code history(tagOrId)}: all that happened, latest first.
 *   <li>{@code signedRecord(ref or sha256)}, {@code record(…)}: the run record, for the report page.
 *   <li>{@code keys()}, {@code conflicts()}, {@code sessions()} (those that records were made for).
 *   <li>{@code version()}: grows with each change of any process; ask it to live-update.
 * </ul>
 *
 * <h2>Acting</h2>
 *
 * {@link tracksoak.report.roster.RosterDesk}: {@code enter(signedRecord, tag)}, {@code tag}, {@code note}, {@code withdraw}, {@code restore}, {@code settle},
 * {@code addKey}, {@code revokeKey}. {@code SignedRecord.sign(runRecord, key)} signs a record. Each returns once it is on the disk.
 *
 * <h2>Exchanging</h2>
 *
 * {@link tracksoak.report.roster.exchange.RosterPeer} is another roster: {@code refs(after, limit)}, {@code pull(refs)}, {@code push(parcels)}.
 * {@code roster.peer()} is this one as a server hands it out; {@code roster.take(parcels)} verifies and keeps. A client implements RosterPeer over HTTP and gives it to
 * {@link tracksoak.report.roster.exchange.Sync}. Bodies on the wire are lines made and read by {@link tracksoak.report.roster.exchange.ParcelLines}; a whole file is
 * {@link tracksoak.report.roster.exchange.ExchangeFile}.
 *
 * <h2>Errors</h2>
 *
 * Always {@link tracksoak.profiles.base.Problem}, whose message is for people and whose {@code kind()} decides exit code or HTTP status; from signing
 * and records also {@link tracksoak.report.record.facts.RecordException}. Text that came from hardware or people is kept as it came: show it through
 * {@link tracksoak.report.record.Inert#text} and escape it.
 */
@NullMarked
package tracksoak.report.roster;

import org.jspecify.annotations.NullMarked;
