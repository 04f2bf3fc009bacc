package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Times;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.verdict.Retention;

/** What the drive has kept of what earlier runs left on it, and what this one leaves. */
final class KeepsakePart {

    private static final int MOST_EXAMPLES = 12;

    private KeepsakePart() {}

    /** The section; empty where nothing was read and nothing is to be left. */
    static Optional<Section> of(RunRecord record) {
        List<Block> blocks = new ArrayList<>();
        for (PhaseFacts phase : record.phases()) {
            KeepsakeFacts keepsake = phase.keepsake();
            if (keepsake != null) {
                add(phase, keepsake, blocks);
            }
        }
        if (record.plan().keepsakeBytes() > 0) {
            blocks.add(Prose.of(
                    "This run was asked to leave " + Units.bytes(record.plan().keepsakeBytes())
                            + " or a little more, in whole files, for a later run to read."));
        }
        return blocks.isEmpty()
                ? Optional.empty()
                : Optional.of(new Section(
                        "keepsake",
                        "Keepsake",
                        "What earlier runs left on the drive, and what this one leaves",
                        "",
                        blocks));
    }

    private static void add(PhaseFacts phase, KeepsakeFacts keepsake, List<Block> blocks) {
        blocks.add(Prose.of(Retention.sentence(phase)));
        ReadBackFacts found = phase.readBack();
        Facts.Builder facts = Facts.about(
                        "Left by the run of " + keepsake.writtenAt().substring(0, 10))
                .row("Left by run", keepsake.runId())
                .row("Written at", Times.minute(keepsake.writtenAt()))
                .row("Lay there for", Math.round(keepsake.days() * 10) / 10.0 + " days")
                .row("Size", Units.bytes(keepsake.bytes()) + " in " + keepsake.files() + " files")
                .row("Files gone", Integer.toString(keepsake.filesGone()));
        if (found != null) {
            facts.row(
                            "Blocks read",
                            Count.number(found.blocks() - found.unread()) + " of 4 KiB, "
                                    + Units.bytes((found.blocks() - found.unread()) * ReadBackFacts.BLOCK_BYTES))
                    .row("As written", Count.number(found.good()))
                    .row("Faded", Count.number(Retention.faded(phase)));
        }
        blocks.add(facts.build());
        if (found != null && !found.examples().isEmpty()) {
            blocks.add(Bullets.of(found.examples().stream().limit(MOST_EXAMPLES).toList()));
        }
    }
}
