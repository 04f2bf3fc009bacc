package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;

/** What came back from the drive, block by block. */
final class ReadBackPart implements Part {

    private static final int MOST_EXAMPLES = 12;

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        for (PhaseFacts phase : record.phases()) {
            ReadBackFacts found = phase.readBack();
            if (found != null && phase.kind() != PhaseKind.KEEPSAKE) {
                add(phase, found, blocks);
            }
        }
        long asked = backs(record).mapToLong(ReadBackPart::read).sum();
        long good = backs(record).mapToLong(ReadBackFacts::good).sum();
        long unread = backs(record).mapToLong(ReadBackFacts::unread).sum();
        String gist = asked == 0
                ? "Nothing was read back"
                : good < asked
                        ? (good == 0 ? "No block came back as written" : "Not every block came back as written")
                        : unread > 0
                                ? "Every block that was read came back as written"
                                : "Every block came back as written";
        if (blocks.isEmpty()) {
            blocks.add(Prose.of("Nothing was read back, so nothing is known about what the drive really holds."));
        }
        return new Section(
                "read-back",
                "Read-back",
                gist,
                asked == 0
                        ? ""
                        : good == asked
                                ? Units.bytes(asked * ReadBackFacts.BLOCK_BYTES)
                                : Count.of(asked - good, "block") + " of " + Count.number(asked + unread)
                                        + (unread == 0 ? "" : ", " + Count.number(unread) + " not read"),
                blocks);
    }

    private static Stream<ReadBackFacts> backs(RunRecord record) {
        return record.phases().stream()
                .filter(phase -> phase.kind() != PhaseKind.KEEPSAKE)
                .flatMap(phase -> Stream.ofNullable(phase.readBack()));
    }

    /** Blocks of which it is known what came back. */
    private static long read(ReadBackFacts found) {
        return found.blocks() - found.unread();
    }

    private static void add(PhaseFacts phase, ReadBackFacts found, List<Block> blocks) {
        if (read(found) > 0) {
            blocks.add(Prose.of(origin(found.fromDevice())));
        }
        blocks.add(new Grid(
                phase.kind() == PhaseKind.PROBES
                        ? "Single blocks of 4 KiB laid over the free room, by what came back"
                        : "Blocks of 4 KiB by what came back",
                List.of("Came back", "Blocks", "Amount", "What it means"),
                List.of(
                        row("as written", found.good(), "the block is intact"),
                        row("missing", found.missing(), "zeros, or the file ends early"),
                        row("stale", found.stale(), "old data: the write never reached the drive"),
                        row("misplaced", found.misplaced(), "another block's stamp: the drive holds less than it says"),
                        row("flipped", found.flipped(), "the checksum does not fit: bits changed"),
                        row("unreadable", found.unreadable(), "the drive gave an error"),
                        row("not read", found.unread(), "read-back ended first"),
                        row("in all", found.blocks(), "blocks that should be there"))));
        List<String> examples = found.examples();
        if (!examples.isEmpty()) {
            blocks.add(Prose.of("The first bad blocks:"));
            blocks.add(new Bullets(
                    examples.stream().limit(MOST_EXAMPLES).map(Shown::of).toList()));
        }
    }

    private static List<Shown> row(String name, long blocks, String meaning) {
        return Grid.row(name, Count.number(blocks), Units.bytes(blocks * ReadBackFacts.BLOCK_BYTES), meaning);
    }

    private static String origin(ReadBackFacts.Origin origin) {
        return switch (origin) {
            case DEVICE -> "The drive's own counters show that these bytes came from the drive.";
            case HOST_MEMORY ->
                "The drive's own counters show that at least part of these bytes came from the computer's"
                        + " memory, so they prove nothing about the drive.";
            case UNKNOWN ->
                "The system has no counters for this drive, so nothing proves that these bytes came from it"
                        + " and not from the computer's memory.";
        };
    }
}
