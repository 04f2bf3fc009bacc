/**
 * The roster's server: pages for people, a small API for laptops that sync, and the guards before both.
 *
 * <p>Start it with {@link tracksoak.report.roster.web.server.RosterServer#start}. It stands on Jetty's core, without servlets: one
 * asynchronous server of four jars that is kept up to date, so that slow bodies, slow heads and some hundred pages waiting
 * for news hold no thread, connections can be timed and cut one by one, TLS is its own, and memory stays flat. The JDK's
 * own server starts faster but gives each waiting page a thread and times connections by system properties only. Nothing
 * here is loaded by any command but {@code roster serve}.
 */
@NullMarked
package tracksoak.report.roster.web.server;

import org.jspecify.annotations.NullMarked;
