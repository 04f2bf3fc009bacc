package tracksoak.bench.inspect;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.volume.Volume;
import tracksoak.report.record.facts.inspection.Finding.Weight;
import tracksoak.report.record.facts.inspection.FindingKind;

/**
 * The recordings under a path.
 *
 * @param files those whose header could be read
 * @param broken those that are none or whose header says nothing of use
 * @param otherFiles how many other files lie there, which were not looked into
 * @param volume the file system's own tables; null where they could not be read
 * @param mounted whether it was mounted while they were read
 * @param volumeUnknown why they could not be; empty where they were
 * @param prefix where the files lie in the volume, with a slash at its end unless empty
 */
record Recordings(
        List<RecordedFile> files,
        List<Broken> broken,
        long otherFiles,
        @Nullable Volume volume,
        boolean mounted,
        String volumeUnknown,
        String prefix) {

    /** A file that cannot be looked into, and what that means. */
    record Broken(String path, String why, FindingKind kind, Weight weight) {

        /** One that the drive refused. */
        static Broken refused(String path, String why) {
            return new Broken(path, why, FindingKind.UNREADABLE, Weight.FAULT);
        }

        /** One whose header says nothing of use; it may be whole where it only is of a kind that is not known here. */
        static Broken header(String path, UnreadableWave none) {
            return none.foreign()
                    ? new Broken(path, none.why(), FindingKind.UNREADABLE, Weight.LISTEN)
                    : new Broken(path, none.why(), FindingKind.HEADER_CUT, Weight.FAULT);
        }

        /** One that nothing is known of, so that a track may lie there. */
        static Broken notLookedAt(String path, String why) {
            return new Broken(path, why, FindingKind.NOT_LOOKED_AT, Weight.LISTEN);
        }

        /** One that was not looked into and hides nothing. */
        static Broken besides(String path, String why) {
            return new Broken(path, why, FindingKind.NOT_LOOKED_AT, Weight.NOTE);
        }
    }

    Recordings {
        files = List.copyOf(files);
        broken = List.copyOf(broken);
    }
}
