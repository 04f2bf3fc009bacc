package tracksoak.bench.command.standin;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.job.Version;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.BufferWords;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.Drawing;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.RecorderPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.page.view.Lanes;
import tracksoak.report.page.view.Shown;

/** The sheet of what was learnt of a recorder. */
public final class RecorderSheets {

    private RecorderSheets() {}

    /** Writes it. */
    public static void save(Path file, Pattern pattern, @Nullable BufferFound buffer, @Nullable Comparison against) {
        try {
            SheetFile.write(file, RecorderPage.render(sheet(pattern, buffer, against)));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the page cannot be written to " + Inert.quoted(file) + " (" + Problem.reason(refused) + ")",
                    "name another file, in a folder that is there");
        }
    }

    private static RecorderPage.Sheet sheet(
            Pattern pattern, @Nullable BufferFound buffer, @Nullable Comparison against) {
        Map<String, Object> json = JsonOption.document("stand-in-learn/1");
        LearnedText.put(json, pattern, buffer, against);
        List<String> lines = buffer == null ? List.of() : BufferWords.lines(buffer);
        String chunk = pattern.chunkBytes().isPresent()
                ? "in pieces of " + Units.bytes(pattern.chunkBytes().getAsLong())
                : "in pieces of different sizes";
        return new RecorderPage.Sheet(
                pattern.traceSha256().substring(0, 16),
                Version.full(),
                JsonText.of(json),
                Instant.ofEpochMilli(pattern.startEpochMs()).toString(),
                "It writes " + Count.of(pattern.streams(), "file") + " at the same time, " + chunk
                        + (lines.isEmpty() ? "." : ". " + lines.get(0)),
                pattern.doubts(),
                pattern.all().stream()
                        .map(one -> List.of(one.habit().words(), one.value(), one.evidence()))
                        .toList(),
                buffer != null && buffer.measured(),
                lines,
                against == null ? List.of() : against.lines(),
                lanes(pattern.drawing()));
    }

    private static Lanes lanes(Drawing drawing) {
        return new Lanes(
                "What was written when: each lane is a file",
                Shown.whole("From " + Units.seconds(drawing.fromS()) + " into the trace, "
                        + Units.seconds(drawing.lengthS())
                        + " long: each mark is a piece of audio, as wide as its write took; headers, tables, flushes and stops"
                        + " are drawn in other colours."),
                drawing.files().stream().map(Shown::of).toList(),
                drawing.lengthS(),
                drawing.marks().stream()
                        .map(mark -> new Lanes.Mark(mark.file(), mark.kind(), mark.atS(), mark.lengthS()))
                        .toList());
    }
}
