package tracksoak.report.record.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StreamTotals;

class RecordFileTest {

    @TempDir
    Path folder;

    @Test
    void savesAndLoads() throws IOException {
        Path file = folder.resolve("new/record.json");
        RunRecord record = RecordJsonTest.fullRecord();
        RecordFile.save(file, record);
        RunRecord other = RunSketch.goodLineCheck().record();
        assertThat(RecordFile.load(file)).isEqualTo(record);
        RecordFile.save(file, other);
        assertThat(RecordFile.load(file)).isEqualTo(other);
        try (Stream<Path> files = Files.list(folder.resolve("new"))) {
            assertThat(files).as("nothing half-written stays").containsExactly(file);
        }
        if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void aRecordThatCannotBeWrittenLeavesTheOldOne() {
        Path file = folder.resolve("record.json");
        RunRecord record = RecordJsonTest.fullRecord();
        RecordFile.save(file, record);
        RunSketch bad = RunSketch.good();
        bad.phases.get(0).lostMs = Double.NaN;
        assertThatThrownBy(() -> RecordFile.save(file, bad.record())).isInstanceOf(RecordException.class);
        assertThat(RecordFile.load(file)).isEqualTo(record);
    }

    @Test
    void saysWhichFileAndWhatToDo() throws IOException {
        Path none = folder.resolve("none.json");
        assertThatThrownBy(() -> RecordFile.load(none))
                .isInstanceOf(RecordException.class)
                .hasMessage("the run record cannot be loaded: " + none
                        + ": there is no such file; give the record.json of a run");
        Path text = Files.writeString(folder.resolve("text.json"), "hello");
        assertThatThrownBy(() -> RecordFile.load(text)).hasMessageContaining(text.toString());
        assertThatThrownBy(() -> RecordFile.load(folder)).isInstanceOf(RecordException.class);
        assertThatThrownBy(() -> RecordFile.save(
                        text.resolve("record.json"), RunSketch.good().record()))
                .isInstanceOf(RecordException.class)
                .hasMessageContaining("cannot be saved");
    }

    /** The design's bound: memory and record grow with nothing but the 1 s series; 12 h take at most 2 MB. */
    @Test
    void twelveHoursTakeAtMostTwoMegabytes() {
        long seed = 12;
        Random random = Seeded.random(seed);
        RunSketch run = RunSketch.good();
        for (PhaseSketch phase : run.phases) {
            phase.service = PhaseSketch.latency(seed);
        }
        PhaseSketch take = run.phases.get(2);
        int seconds = 12 * 3600;
        take.series = new Series(
                column(random, seconds, 20_000, 40_000),
                column(random, seconds, 0, 999),
                column(random, seconds, 100, 1999),
                column(random, seconds, 0, 999),
                column(random, seconds, 0, 30),
                column(random, seconds, 0, 1999),
                column(random, seconds, 0, 64),
                column(random, seconds, 0, 999),
                column(random, seconds, 0, 999));
        for (int i = 0; i < PhaseFacts.MOST_LISTED; i++) {
            take.stalls.add(new Stall(random.nextDouble() * seconds, random.nextDouble() * 2000, random.nextDouble()));
            take.overruns.add(new Overrun(random.nextDouble() * seconds, random.nextDouble() * 2000, 64, 0));
        }
        take.streams = new StreamTotals(
                random.longs(1024, 0, 1L << 40).boxed().toList(),
                random.doubles(1024).boxed().toList(),
                random.doubles(1024).boxed().toList(),
                IntStream.generate(() -> 13).limit(1024).boxed().toList());
        byte[] json = RecordJson.bytes(run.record());
        assertThat(json.length).as("seed %d", seed).isLessThanOrEqualTo(2_000_000);
        assertThat(RecordJson.read(json)).isEqualTo(run.record());
    }

    private static IntColumn column(Random random, int length, int from, int to) {
        return IntColumn.of(random.ints(length, from, to).toArray());
    }
}
