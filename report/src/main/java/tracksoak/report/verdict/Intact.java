package tracksoak.report.verdict;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToLongFunction;
import java.util.stream.Stream;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ProbeFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.ReadBackFacts.Origin;

/** Every block read back must be as it was written. A bad block fails the drive whatever the host did. */
final class Intact implements Rule {

    @Override
    public Finding judge(JudgedRun run) {
        FindingDraft draft = new FindingDraft(CriterionId.INTACT, "every block as written", 0.0, "bad blocks");
        List<ReadBackFacts> backs = run.readBacks.stream()
                .map(PhaseFacts::readBack)
                .filter(Objects::nonNull)
                .toList();
        List<ReadBackFacts> probes = run.phases(PhaseKind.PROBES)
                .map(PhaseFacts::readBack)
                .filter(Objects::nonNull)
                .toList();
        long bad = sum(backs, ReadBackFacts::bad);
        long blocks = sum(backs, ReadBackFacts::blocks);
        long unread = sum(backs, ReadBackFacts::unread);
        String amount = Units.bytes((blocks - unread) * ReadBackFacts.BLOCK_BYTES);
        List<PhaseFacts> all = run.record.phases();
        Optional<String> faded = bad == 0 ? Retention.missed(all) : Optional.empty();
        Optional<String> cutShort = faded.isPresent() ? Optional.empty() : Retention.cutShort(all);
        Retention.phases(all)
                .map(Retention::sentence)
                .filter(kept -> !kept.equals(faded.orElse(cutShort.orElse(null))))
                .forEach(draft::note);
        if (faded.isPresent()) {
            double lost = Retention.phases(all).mapToLong(Retention::faded).sum();
            return draft.measured(counted(Math.round(lost)) + " of the keepsake faded", lost)
                    .missed(faded.get());
        }
        long gone = sum(probes, ReadBackFacts::bad);
        if (gone > 0) {
            return draft.measured(counted(gone + bad) + " bad", (double) (gone + bad))
                    .missed("Of " + counted(sum(probes, ReadBackFacts::blocks)) + " laid over all the free room "
                            + Count.number(gone) + " did not come back"
                            + Unread.words(sum(probes, ReadBackFacts::good), sum(probes, ReadBackFacts::unread))
                            + (bad > 0 ? ", and of what was recorded: " + kinds(backs) : "")
                            + ". The drive has less room than it claims, or loses what is written. Never"
                            + " record on it.");
        }
        if (bad > 0) {
            return draft.measured(
                            Count.number(bad) + " of " + counted(blocks) + " bad" + Unread.figure(unread), (double) bad)
                    .missed("The drive does not give back what was written: " + kinds(backs) + ". Never record on it.");
        }
        List<PhaseFacts> stopped = Stream.of(
                        run.readBacks.stream(),
                        run.phases(PhaseKind.PROBES).filter(phase -> phase.readBack() != null),
                        Retention.phases(all))
                .flatMap(phases -> phases)
                .filter(LostAudio::stopped)
                .toList();
        if (!stopped.isEmpty()) {
            return draft.measured("stopped", null)
                    .missed(
                            stopped.stream().allMatch(Intact::wasRead)
                                    ? "All came back as written, but the drive failed while that was deleted: its"
                                            + " tables may be damaged, and the next take with them."
                                    : "The drive stopped answering while it was read back: the takes could not be"
                                            + " copied off it. If somebody pulled it, run again.");
        }
        if (cutShort.isPresent()) {
            return draft.measured("a keepsake cut short", null).open(cutShort.get());
        }
        if (blocks == 0 || blocks == unread) {
            return draft.open("Not tested: nothing was read back. Run again to the end.");
        }
        draft.measured("all good of " + amount, 0.0);
        Covered covered = Covered.of(run);
        if (covered != null && !run.filledWhole()) {
            String lacking = "The fill did not come to the end of the free room: " + covered.words()
                    + " of it were written and read back.";
            if (!run.record.plan().shortened()) {
                return draft.open(lacking + " Run again to the end.");
            }
            draft.note(lacking);
        }
        if (unread > 0 || !run.readBacks.stream().allMatch(PhaseFacts::complete)) {
            return draft.open("Only part was read back, all of it good: " + amount + ". Run again to the end.");
        }
        if (backs.stream().anyMatch(back -> back.fromDevice() == Origin.HOST_MEMORY)) {
            return draft.openForGood("The computer gave the blocks from its own memory, so the drive was not asked:"
                    + " unplug it, plug it in again and run again.");
        }
        if (backs.stream().anyMatch(back -> back.fromDevice() == Origin.UNKNOWN)) {
            if (run.ioMode() == IoMode.WRITE_THROUGH) {
                return draft.openForGood(
                        "Nothing shows that the blocks came from the drive and not from the computer's memory:"
                                + " use a file system that allows direct access, or another computer.");
            }
            draft.note("No counter of the device confirms that read-back came from it; reads went past the computer's"
                    + " memory.");
        }
        ProbeFacts laid = run.record.method().probes();
        if (laid != null && laid.placed() == 0) {
            draft.note("The size of the drive was not looked at: " + laid.refused()
                    + ". A full-show proves the room; a fake drive may pass anything less.");
        }
        return draft.met("All " + amount + " came back as written"
                + (probes.isEmpty()
                        ? "."
                        : ", and so did " + counted(sum(probes, ReadBackFacts::good)) + " laid over "
                                + Units.bytes(laid == null ? 0 : laid.spanBytes()) + " of free room."));
    }

    private static boolean wasRead(PhaseFacts phase) {
        ReadBackFacts back = phase.readBack();
        return back != null && back.blocks() > 0 && back.unread() == 0;
    }

    private static String kinds(List<ReadBackFacts> backs) {
        StringBuilder words = new StringBuilder();
        add(words, sum(backs, ReadBackFacts::missing), "missing");
        add(words, sum(backs, ReadBackFacts::stale), "stale");
        add(words, sum(backs, ReadBackFacts::misplaced), "misplaced, as on a drive that claims more room than it has");
        add(words, sum(backs, ReadBackFacts::flipped), "flipped");
        add(words, sum(backs, ReadBackFacts::unreadable), "unreadable");
        return words.append(Unread.words(sum(backs, ReadBackFacts::good), sum(backs, ReadBackFacts::unread)))
                .toString();
    }

    private static void add(StringBuilder words, long count, String what) {
        if (count > 0) {
            words.append(words.isEmpty() ? "" : ", ")
                    .append(counted(count))
                    .append(' ')
                    .append(what);
        }
    }

    private static String counted(long blocks) {
        return Count.inDigits(blocks, "block");
    }

    private static long sum(List<ReadBackFacts> backs, ToLongFunction<ReadBackFacts> part) {
        return backs.stream().mapToLong(part).sum();
    }
}
