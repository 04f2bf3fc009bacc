/**
 * What a session needs: session profiles, their reader, and the demand arithmetic. Depends on no other room.
 *
 * <p>{@link tracksoak.profiles.SessionCatalog} finds a {@link tracksoak.profiles.Session} by name, {@link
 * tracksoak.profiles.SessionReader} reads one from a file, and {@link tracksoak.profiles.SessionOverrides} changes one for a
 * single run. {@link tracksoak.profiles.Key} says all there is to say about a key. All pass the same checks, and what is
 * wrong comes as one {@link tracksoak.profiles.ProfileException} that lists everything. {@link tracksoak.profiles.Demand} works out what
 * a session asks of a drive, and {@link tracksoak.profiles.FileSystemShape} the room it takes there.
 *
 * <p>The profile format is described in docs/sessions.md.
 */
@NullMarked
package tracksoak.profiles;

import org.jspecify.annotations.NullMarked;
