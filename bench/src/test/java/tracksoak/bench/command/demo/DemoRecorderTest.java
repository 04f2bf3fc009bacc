package tracksoak.bench.command.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.Units;

class DemoRecorderTest {

    @TempDir
    Path folder;

    @Test
    void measuresTheTheatresRecorderAndFillsItsSession() throws IOException {
        Path out = folder.resolve("out");
        Typed typed = Typed.run(new TestRooms(folder, List.of()), "demo", "--recorder", "--out", out.toString());

        assertThat(typed.code()).as(typed.err()).isZero();
        Session session = SessionReader.read(
                Files.readString(out.resolve("lantern-wagon-learnt.toml")), "lantern-wagon-learnt.toml");
        assertThat(session.tracks()).isEqualTo(16);
        assertThat(session.chunkBytes()).isEqualTo(64 << 10);
        assertThat(session.arrival()).isEqualTo(Arrival.BURST);
        assertThat(session.flushS()).isEqualTo(10);
        assertThat(session.headerS()).isEqualTo(5);
        assertThat(session.bufferAssumed()).isFalse();
        // it holds four chunks of 64 KiB at 144,000 B/s
        double buffer = 4 * 65_536 / 144_000.0;
        assertThat(session.bufferS()).isBetween(buffer - 65_536 / 144_000.0, buffer);
        assertThat(session.about()).contains("held").contains("lost audio at").contains("trace SHA-256");
        assertThat(typed.out()).contains("drops audio and goes on");

        String page = Files.readString(out.resolve("recorder.html"));
        assertThat(page)
                .contains("mark-audio")
                .contains("mark-header")
                .contains("A01T016A.WAV")
                .contains("lost audio at");

        Path known = new TestRooms(folder, List.of()).sessionsFolder();
        Files.createDirectories(known);
        Files.copy(out.resolve("lantern-wagon-learnt.toml"), known.resolve("lantern-wagon-learnt.toml"));
        assertThat(Typed.run(new TestRooms(folder, List.of()), "sessions", "show", "lantern-wagon-learnt")
                        .out())
                .containsPattern("buffer +" + Units.seconds(session.bufferS()) + " per track, measured on 20");
        Typed run = Typed.run(
                new TestRooms(folder, List.of()),
                "qualify",
                "--simulated",
                "steady-stick",
                "--session-file",
                out.resolve("lantern-wagon-learnt.toml").toString(),
                "--plan",
                "line-check",
                "--no-roster",
                "--json",
                "--out",
                folder.resolve("run").toString());
        assertThat(run.out()).as(run.err()).contains(" was measured on 20").doesNotContain("is a guess");

        Typed again = Typed.run(new TestRooms(folder, List.of()), "demo", "--recorder", "--out", out.toString());
        assertThat(again.code()).isEqualTo(3);
    }
}
