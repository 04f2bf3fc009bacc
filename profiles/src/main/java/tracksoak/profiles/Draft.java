package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A session on its way in: every value may still be missing or out of range. Confined to one thread. */
final class Draft {
    @Nullable
    String name;

    @Nullable
    String title;

    @Nullable
    String about;

    @Nullable
    SessionKind kind;

    final List<Group> groups = new ArrayList<>();
    final List<Group> mix = new ArrayList<>();

    @Nullable
    Long lengthS;

    @Nullable
    FileLayout layout;

    @Nullable
    Long chunkBytes;

    @Nullable
    Arrival arrival;

    @Nullable
    Long writers;

    @Nullable
    Double flushS;

    @Nullable
    Double bufferS;

    @Nullable
    Boolean bufferAssumed;

    @Nullable
    Long fileLimitBytes;

    @Nullable
    List<String> fileSystems;

    @Nullable
    Long stallLimitMs;

    @Nullable
    Long validDays;

    @Nullable
    Double marginBuffer;

    @Nullable
    Double marginRate;

    @Nullable
    Double marginPort;

    @Nullable
    Double marginPlayback;

    @Nullable
    Long longestStallMs;

    @Nullable
    Long closeMs;

    /** Tracks of one rate and word length, and where in the profile they stand. */
    static final class Group {
        final String path;

        @Nullable
        Long count;

        @Nullable
        Long sampleRateHz;

        @Nullable
        SampleFormat format;

        Group(String path) {
            this.path = path;
        }

        String path(Key key) {
            return path + "." + key.toml();
        }

        TrackGroup toTrackGroup() {
            return new TrackGroup(known(count).intValue(), known(sampleRateHz).intValue(), known(format));
        }
    }

    static Draft of(Session session) {
        Draft draft = new Draft();
        draft.name = session.name();
        draft.title = session.title();
        draft.about = session.about();
        draft.kind = session.kind();
        addGroups(session.groups(), Key.TRACKS, draft.groups);
        addGroups(session.mix(), Key.MIX, draft.mix);
        draft.lengthS = session.lengthS();
        draft.layout = session.layout();
        draft.chunkBytes = (long) session.chunkBytes();
        draft.arrival = session.arrival();
        draft.writers = (long) session.writers();
        draft.flushS = session.flushS();
        draft.bufferS = session.bufferS();
        draft.bufferAssumed = session.bufferAssumed();
        draft.fileLimitBytes = session.fileLimitBytes();
        draft.fileSystems = session.fileSystems();
        draft.stallLimitMs = session.stallLimitMs();
        draft.validDays = (long) session.validDays();
        draft.marginBuffer = session.margins().buffer();
        draft.marginRate = session.margins().rate();
        draft.marginPort = session.margins().port();
        draft.marginPlayback = session.margins().playback();
        draft.longestStallMs = session.margins().longestStallMs();
        draft.closeMs = session.margins().closeMs();
        return draft;
    }

    private static void addGroups(List<TrackGroup> from, Key key, List<Group> to) {
        for (TrackGroup trackGroup : from) {
            Group group = new Group(key.toml() + "[" + to.size() + "]");
            group.count = (long) trackGroup.tracks();
            group.sampleRateHz = (long) trackGroup.sampleRateHz();
            group.format = trackGroup.format();
            to.add(group);
        }
    }

    /** The session, once the rules have found nothing wrong. */
    Session toSession() {
        return new Session(
                known(name),
                known(title),
                known(about),
                known(kind),
                groups.stream().map(Group::toTrackGroup).toList(),
                mix.stream().map(Group::toTrackGroup).toList(),
                known(lengthS),
                known(layout),
                known(chunkBytes).intValue(),
                known(arrival),
                known(writers).intValue(),
                known(flushS) + 0.0, // -0.0 becomes 0.0, so that equal sessions are equal
                known(bufferS),
                known(bufferAssumed),
                known(fileLimitBytes),
                known(fileSystems),
                known(stallLimitMs),
                known(validDays).intValue(),
                new Margins(
                        known(marginBuffer),
                        known(marginRate),
                        known(marginPort),
                        known(marginPlayback),
                        known(longestStallMs),
                        known(closeMs)));
    }

    private static <T> T known(@Nullable T value) {
        if (value == null) {
            throw new IllegalStateException("a session was made before its profile was checked");
        }
        return value;
    }
}
