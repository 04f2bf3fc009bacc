package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.folder.KeepsakeFolder;
import tracksoak.bench.drive.io.RealDrive;
import tracksoak.bench.phase.run.Keepsake;
import tracksoak.bench.stream.KeepsakeList;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;

/** Finds what earlier runs left on a drive, and leaves something for later ones. */
final class Keepsakes {

    private final JobListener listener;
    private final KeepsakeShelf shelf;

    Keepsakes(Rooms rooms, JobListener listener) {
        this.listener = listener;
        this.shelf = KeepsakeShelf.in(rooms);
    }

    /**
     * What is to be read first: every keepsake in {@code parent}, and those this computer left on the drive that are not
     * there any more.
     */
    List<Keepsake> in(Path parent, RealDrive drive, DriveFacts facts, @Nullable String tag) {
        List<Keepsake> found = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        KeepsakeShelf.Contents lists = shelf.read();
        lists.unreadable().forEach(listener::trouble);
        try {
            for (KeepsakeFolder folder : KeepsakeFolder.under(parent)) {
                seen.add(folder.name());
                Keepsake keepsake = of(folder, drive, lists);
                if (keepsake != null) {
                    found.add(keepsake);
                }
            }
        } catch (IOException silent) {
            listener.note("what earlier runs left cannot be looked at (" + Problem.reason(silent) + ")");
        }
        for (KeepsakeShelf.Entry entry : lists.of(facts, tag)) {
            if (!seen.contains(KeepsakeFolder.nameOf(entry.list().runId()))) {
                listener.note("the keepsake of " + entry.list().writtenAt() + " is not in "
                        + Inert.quoted(parent) + " any more; to forget it: tracksoak clear PATH --keepsake "
                        + KeepsakeFolder.nameOf(entry.list().runId()) + " --yes");
                found.add(new Keepsake(null, entry.list(), true));
            }
        }
        return found;
    }

    private @Nullable Keepsake of(KeepsakeFolder folder, RealDrive drive, KeepsakeShelf.Contents lists)
            throws IOException {
        Optional<KeepsakeList> list = lists.listOf(folder);
        if (list.isEmpty()) {
            listener.note(Inert.quoted(folder.folder())
                    + " looks like a keepsake, but neither this computer nor its note says what it should hold; it is left"
                    + " alone");
            return null;
        }
        int unit = drive.alignmentBytes();
        if (list.get().files().stream().anyMatch(file -> file.headerBytes() % unit != 0)) {
            listener.note("the keepsake in " + Inert.quoted(folder.folder())
                    + " was written in another unit than this drive is read in now; it is left alone");
            return null;
        }
        return new Keepsake(
                drive.at(folder.folder()), list.get(), lists.own(folder.name()).isPresent());
    }

    /** Leaves whole files of a run that was all good; says what was left, or why nothing was. */
    void leave(Order order, RunRecord record, List<WrittenFile> written, Path runFolder) {
        long bytes = order.extras().keepsakeBytes();
        boolean good = record.state() == RunState.COMPLETE
                && record.phases().stream().allMatch(phase -> phase.fault() == null)
                && record.phases().stream().map(PhaseFacts::readBack).allMatch(back -> back == null || allGood(back));
        String ended = record.endedAt();
        if (!good || ended == null) {
            listener.note("no keepsake is left, as not everything was read back as written");
            return;
        }
        KeepsakeList list = KeepsakeList.chosen(record.id(), ended, written, bytes);
        if (list.files().isEmpty()) {
            listener.note("no keepsake is left, as the run has left no files");
            return;
        }
        try {
            KeepsakeFolder folder = KeepsakeFolder.leave(
                    runFolder,
                    record.id(),
                    list.files().stream().map(WrittenFile::name).toList(),
                    list.text());
            shelf.keep(list, record.drive(), record.tag());
            listener.keepsakeLeft(folder.folder(), list.bytes(), list.files().size(), bytes);
        } catch (IOException refused) {
            listener.trouble(Problem.cannot(
                    "the keepsake could not be left (" + Problem.reason(refused) + ")",
                    "see whether the drive takes writes, and run again"));
        }
    }

    private static boolean allGood(ReadBackFacts back) {
        return back.bad() == 0 && back.unread() == 0;
    }
}
