package tracksoak.profiles;

import java.util.List;
import tracksoak.profiles.base.FieldText;

/** A session as text that only this program reads, for places where TOML and JSON take too long. Stateless; any thread. */
public final class SessionFields {

    private SessionFields() {}

    /** All that a session says. */
    public static String write(Session session) {
        Margins margins = session.margins();
        return new FieldText.Writer()
                .put(session.name())
                .put(session.title())
                .put(session.about())
                .put(session.kind().name())
                .list(session.groups(), SessionFields::group)
                .list(session.mix(), SessionFields::group)
                .put(session.lengthS())
                .put(session.layout().name())
                .put(session.chunkBytes())
                .put(session.arrival().name())
                .put(session.writers())
                .put(session.flushS())
                .put(session.headerS())
                .put(session.spaceInAdvanceBytes())
                .put(session.bufferS())
                .put(session.bufferAssumed())
                .put(session.fileLimitBytes())
                .list(session.fileSystems(), FieldText.Writer::put)
                .put(session.stallLimitMs())
                .put(session.risk())
                .put(session.validDays())
                .put(margins.buffer())
                .put(margins.rate())
                .put(margins.port())
                .put(margins.playback())
                .put(margins.longestStallMs())
                .put(margins.closeMs())
                .text();
    }

    private static void group(FieldText.Writer text, TrackGroup group) {
        text.put(group.tracks()).put(group.sampleRateHz()).put(group.format().name());
    }

    /**
     * Reads a session back.
     *
     * @throws IllegalStateException if it is not what {@link #write} makes
     */
    public static Session read(String text) {
        return FieldText.read(text, SessionFields::session);
    }

    private static Session session(FieldText.Reader text) {
        return new Session(
                text.said(),
                text.said(),
                text.said(),
                SessionKind.valueOf(text.said()),
                groups(text),
                groups(text),
                text.number(),
                FileLayout.valueOf(text.said()),
                text.count(),
                Arrival.valueOf(text.said()),
                text.count(),
                text.real(),
                text.real(),
                text.number(),
                text.real(),
                text.flag(),
                text.number(),
                text.list(FieldText.Reader::said),
                text.number(),
                text.real(),
                text.count(),
                new Margins(text.real(), text.real(), text.real(), text.real(), text.number(), text.number()));
    }

    private static List<TrackGroup> groups(FieldText.Reader text) {
        return text.list(one -> new TrackGroup(one.count(), one.count(), SampleFormat.valueOf(one.said())));
    }
}
