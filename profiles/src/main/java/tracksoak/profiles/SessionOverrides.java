package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;

/**
 * Values given for one run in place of the profile's. Null means: as the profile says. They pass the same checks as a
 * file. Immutable; made by {@link #builder()}.
 *
 * @param tracks number of tracks, of a session with one group of tracks
 * @param sampleRateHz samples per second of every track, in Hz, those of a mix too
 * @param format how every sample is stored, those of a mix too
 * @param lengthS length of the session in s
 * @param layout how tracks share files
 * @param chunkBytes the piece written at once, in bytes
 * @param arrival when chunks fall due
 * @param writers writes in flight at once
 * @param flushS interval between two flushes in s
 * @param bufferS what the recorder can hold per track in s; who gives it vouches for it, so it is no assumption any more
 * @param fileLimitBytes largest file the recorder writes, in bytes
 * @param fileSystems file systems the recorder accepts
 * @param stallLimitMs longest wait that is no stall, in ms
 * @param marginBuffer least buffer margin, factor
 * @param marginRate least rate margin, factor
 * @param marginPort least port margin, factor
 * @param marginPlayback least playback margin, factor
 * @param longestStallMs longest stall allowed, in ms
 * @param closeMs longest close allowed, in ms
 */
public record SessionOverrides(
        @Nullable Integer tracks,
        @Nullable Integer sampleRateHz,
        @Nullable SampleFormat format,
        @Nullable Long lengthS,
        @Nullable FileLayout layout,
        @Nullable Long chunkBytes,
        @Nullable Arrival arrival,
        @Nullable Integer writers,
        @Nullable Double flushS,
        @Nullable Double bufferS,
        @Nullable Long fileLimitBytes,
        @Nullable List<String> fileSystems,
        @Nullable Long stallLimitMs,
        @Nullable Double marginBuffer,
        @Nullable Double marginRate,
        @Nullable Double marginPort,
        @Nullable Double marginPlayback,
        @Nullable Long longestStallMs,
        @Nullable Long closeMs) {

    /** Added to the name of a changed session, so that a PASS for it is never taken for one for the original. */
    public static final String CHANGED = "-changed";

    public SessionOverrides {
        fileSystems = fileSystems == null ? null : List.copyOf(fileSystems);
    }

    /** A place to say which values differ. */
    public static SessionOverridesBuilder builder() {
        return new SessionOverridesBuilder();
    }

    /** No value differs. */
    public static SessionOverrides none() {
        return builder().build();
    }

    /**
     * The session with these values. Where one differs, its name ends in {@link #CHANGED}, its title says what it is now, and its
     * text what differs.
     *
     * @throws ProfileException with everything that is wrong; an error in a value given here stands under {@code option}
     */
    public Session applyTo(Session session) {
        if (equals(none())) {
            // a session out of a record may be one that no file could hold
            return session;
        }
        OverrideDraft draft = new OverrideDraft(session);
        draft.apply(this);
        Session changed = draft.check();
        List<String> changes = changes(session, changed);
        return changes.isEmpty() ? session : renamed(changed, session, changes);
    }

    private static List<String> changes(Session before, Session after) {
        List<String> changes = new ArrayList<>();
        add(changes, "tracks", tracks(before), tracks(after));
        add(changes, "length", Quantity.exactSeconds(before.lengthS()), Quantity.exactSeconds(after.lengthS()));
        add(changes, "layout", Words.of(before.layout()), Words.of(after.layout()));
        add(changes, "chunk", Quantity.exactBytes(before.chunkBytes()), Quantity.exactBytes(after.chunkBytes()));
        add(changes, "arrival", Words.of(before.arrival()), Words.of(after.arrival()));
        add(changes, "writers", before.writers(), after.writers());
        add(changes, "flush", Quantity.plain(before.flushS()) + " s", Quantity.plain(after.flushS()) + " s");
        add(changes, "buffer", buffer(before), buffer(after));
        add(changes, "file limit", before.fileLimitBytes() + " B", after.fileLimitBytes() + " B");
        add(changes, "file systems", before.fileSystems(), after.fileSystems());
        add(changes, "stall limit", before.stallLimitMs() + " ms", after.stallLimitMs() + " ms");
        add(changes, "margins", margins(before.margins()), margins(after.margins()));
        return changes;
    }

    private static void add(List<String> changes, String what, Object before, Object after) {
        if (!Objects.equals(before, after)) {
            changes.add(what + " " + after + " instead of " + before);
        }
    }

    private static String tracks(Session session) {
        List<String> groups = new ArrayList<>();
        for (List<TrackGroup> some : List.of(session.groups(), session.mix())) {
            for (TrackGroup group : some) {
                groups.add(group.tracks() + " at " + group.sampleRateHz() + " Hz "
                        + group.format().words());
            }
        }
        return String.join(" + ", groups);
    }

    private static String buffer(Session session) {
        return Quantity.plain(session.bufferS()) + " s" + (session.bufferAssumed() ? " (assumed)" : "");
    }

    private static String margins(Margins margins) {
        return "buffer " + Quantity.plain(margins.buffer()) + "×, rate " + Quantity.plain(margins.rate()) + "×, port "
                + Quantity.plain(margins.port()) + "×, playback " + Quantity.plain(margins.playback())
                + "×, longest stall " + margins.longestStallMs() + " ms, close " + margins.closeMs() + " ms";
    }

    private static Session renamed(Session changed, Session from, List<String> changes) {
        String stem = from.name().endsWith(CHANGED)
                ? from.name().substring(0, from.name().length() - CHANGED.length())
                : from.name();
        String name = stem.substring(0, Math.min(stem.length(), 40)).replaceAll("-$", "") + CHANGED;
        String about = "Changed from " + from.name() + ": " + String.join("; ", changes) + ". " + from.about();
        return OverrideDraft.named(
                changed,
                name,
                Inert.escaped(title(changed) + " (" + stem + " changed)", SessionRules.TITLE_MAX_CHARS),
                Inert.escaped(about.strip(), 800));
    }

    /** What it is now: the title it had would speak of what it was. */
    private static String title(Session session) {
        List<String> groups = new ArrayList<>();
        for (TrackGroup group : session.groups()) {
            groups.add(group.tracks() + (group.tracks() == 1 ? " track at " : " tracks at ")
                    + Quantity.plain(group.sampleRateHz() / 1000.0) + " kHz "
                    + group.format().words());
        }
        return String.join(" and ", groups) + ", " + Quantity.exactSeconds(session.lengthS());
    }
}
