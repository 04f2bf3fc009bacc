package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import tracksoak.report.record.facts.KeepsakeFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** Keepsakes by real short runs on whatever this test's folder lies on. They go with the rigs, for they wait as those do. */
@Tag("rig")
@Execution(ExecutionMode.CONCURRENT)
class KeepsakeCommandTest extends AtOneDrive {

    private int runs;

    private Typed qualify(String more) {
        runs++;
        return type(
                "qualify DRIVE --session trio-8 --plan line-check --take 2s --idle 0s --reserve 1MB --allow-system-drive --out "
                        + folder.resolve("host/run-" + runs) + more);
    }

    private RunRecord record() {
        return RecordFile.load(folder.resolve("host/run-" + runs + "/record.json"));
    }

    private List<Path> kept() throws IOException {
        try (Stream<Path> all = Files.list(drive)) {
            return all.toList();
        }
    }

    @Test
    void whatIsLeftIsReadFirstByTheNextRun() throws IOException {
        Typed first = qualify(" --leave-keepsake 512KiB");
        assertThat(first.code()).as(first.err()).isIn(0, 4);
        assertThat(first.err()).contains("keepsake: ", "the next run reads them first");
        assertThat(kept()).hasSize(1);
        assertThat(kept().get(0).getFileName().toString()).matches("TRACKSOAK-KEEPSAKE-[0-9a-f]{8}");
        String id = record().id();
        assertThat(record().plan().keepsakeBytes()).isEqualTo(524_288);
        assertThat(Files.readString(kept().get(0).resolve("README-TRACKSOAK.txt")))
                .contains("never play them", id);

        Typed second = qualify("");
        assertThat(second.code()).as(second.err()).isIn(0, 4);
        PhaseFacts phase = record().phases().get(0);
        assertThat(phase.kind()).isEqualTo(PhaseKind.KEEPSAKE);
        KeepsakeFacts facts = Objects.requireNonNull(phase.keepsake());
        assertThat(facts.runId()).isEqualTo(id);
        assertThat(facts.known()).isTrue();
        assertThat(facts.bytes()).isBetween(524_288L, 524_288L + 2 * 144_000 + 65_536);
        ReadBackFacts found = Objects.requireNonNull(phase.readBack());
        assertThat(found.good()).isEqualTo(facts.bytes() / 4096).isEqualTo(found.blocks());
        assertThat(Files.readString(folder.resolve("host/run-2/report.html")))
                .contains("id=\"keepsake\"", "were read and are as written");
        assertThat(second.out()).containsOnlyOnce("Keepsake: Of what the run of ");
        assertThat(type("report HOST/run-2 --more").out()).containsOnlyOnce("Of what the run of ");
        // it stays, and so does this run's absence of one
        assertThat(kept()).hasSize(1);
    }

    @Test
    void aBlockThatChangedFailsTheDrive() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        Path file;
        try (Stream<Path> files = Files.list(kept().get(0))) {
            file = files.filter(each -> each.toString().endsWith(".soak"))
                    .findFirst()
                    .orElseThrow();
        }
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length - 100] ^= 8;
        Files.write(file, bytes);
        Typed typed = qualify("");
        assertThat(typed.code()).as(typed.err()).isEqualTo(1);
        assertThat(typed.out()).contains("The drive has lost part of what the run of", ": 1 of ");
        assertThat(Objects.requireNonNull(record().verdict()).notes())
                .noneMatch(note -> note.contains("The drive has lost part"));
    }

    @Test
    void withoutThisComputersListTheNoteOnTheDriveServes() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        try (Stream<Path> lists = Files.list(folder.resolve("host/records/keepsakes"))) {
            for (Path list : lists.toList()) {
                Files.delete(list);
            }
        }
        qualify("");
        KeepsakeFacts facts = Objects.requireNonNull(record().phases().get(0).keepsake());
        assertThat(facts.known()).isFalse();
        Files.writeString(kept().get(0).resolve("README-TRACKSOAK.txt"), "something else");
        Typed typed = qualify("");
        assertThat(typed.err()).contains("looks like a keepsake", "left alone");
        assertThat(record().phases().get(0).kind()).isEqualTo(PhaseKind.TAKE);
    }

    @Test
    void onlyClearWithItsNameDeletesIt() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        String name = kept().get(0).getFileName().toString();
        Typed stays = type("clear DRIVE --yes");
        assertThat(stays.code()).isZero();
        assertThat(stays.out()).contains("Nothing of an earlier run", "but what it left on purpose.");
        assertThat(stays.err())
                .contains(
                        "the keepsake " + name, " is left, as it was left on purpose", "--keepsake " + name + " --yes")
                .containsPattern("\\(\\d+(\\.\\d+)? [kM]B, \\d+(\\.\\d+)? m?s old\\)");
        assertThat(kept()).hasSize(1);
        Typed listed = type("clear DRIVE --keepsake " + name);
        assertThat(listed.code()).isZero();
        assertThat(listed.out()).contains("found ", name);
        assertThat(listed.err()).contains("nothing was deleted", "--yes");
        assertThat(kept()).hasSize(1);
        Files.writeString(kept().get(0).resolve("show.wav"), "precious");
        Typed refused = type("clear DRIVE --yes --keepsake " + name);
        assertThat(refused.code()).isEqualTo(3);
        assertThat(refused.err()).contains("show.wav");
        Files.delete(kept().get(0).resolve("show.wav"));
        assertThat(type("clear DRIVE --yes --keepsake " + name).code()).isZero();
        assertThat(kept()).isEmpty();
        assertThat(qualify("").err()).doesNotContain("not in");
        assertThat(type("clear DRIVE --yes --keepsake ../host").code()).isEqualTo(2);
    }

    @Test
    void aKeepsakeThatWasDeletedIsSaidUntilItIsForgotten() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        Path left = kept().get(0);
        try (Stream<Path> files = Files.list(left)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(left);
        Typed typed = qualify(" --more");
        assertThat(typed.out()).contains("Retention is not tested", "it was deleted, or the drive formatted");
        assertThat(typed.err()).contains("is not in", "any more");
        assertThat(type("clear DRIVE --yes --keepsake " + left.getFileName()).code())
                .isZero();
        qualify("");
        assertThat(record().phases().get(0).kind()).isEqualTo(PhaseKind.TAKE);
    }

    /** Its size is that of its files; its age is counted from what this computer, else its own note, says. */
    @Test
    void clearMentionsWhatItLeavesAlone() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        Path keepsake = kept().get(0);
        String id = record().id();
        Path list = folder.resolve("host/records/keepsakes").resolve(id + ".txt");
        Path note = keepsake.resolve("README-TRACKSOAK.txt");
        String written = Objects.requireNonNull(record().endedAt());
        JsonNode fresh = kept("clear DRIVE --json");
        assertThat(fresh.get("folder").textValue()).isEqualTo(keepsake.toString());
        assertThat(fresh.get("deleted").booleanValue()).isFalse();
        assertThat(fresh.get("writtenAt").textValue()).isEqualTo(written);
        assertThat(fresh.get("days").doubleValue()).isBetween(0.0, 0.1);
        long bytes = 0;
        try (Stream<Path> files = Files.list(keepsake)) {
            for (Path file : files.toList()) {
                bytes += Files.size(file);
            }
        }
        // whole clusters of the file system
        assertThat(fresh.get("bytes").longValue()).isBetween(bytes, bytes + 3 * (128 << 10));

        Files.delete(list);
        String text = Files.readString(note);
        Files.writeString(note, text.replace(written, "2025-11-01T12:00:00Z"));
        assertThat(kept("clear DRIVE --json").get("days").doubleValue()).isGreaterThan(300);
        assertThat(type("clear DRIVE").err()).containsPattern("\\d{3,} days old");
        Files.writeString(note, text.replace(written, "2999-01-01T12:00:00Z"));
        assertThat(type("clear DRIVE").err()).contains("dated 2999-01-01T12:00:00Z, in the future of this computer");
        Files.writeString(note, "\u001b[2J");
        assertThat(type("clear DRIVE").err()).contains("age unknown").doesNotContain("\u001b");
        assertThat(kept("clear DRIVE --json").get("days").isNull()).isTrue();
    }

    private JsonNode kept(String line) throws IOException {
        return new ObjectMapper().readTree(type(line).out()).at("/keepsakes/0");
    }

    @Test
    void aListThatCannotBeReadIsNamed() throws IOException {
        qualify(" --leave-keepsake 100KiB");
        Path list = folder.resolve("host/records/keepsakes").resolve(record().id() + ".txt");
        Files.writeString(list, "\u001b[2J");
        for (Typed typed : List.of(qualify(""), type("clear DRIVE"))) {
            assertThat(typed.code()).as(typed.err()).isIn(0, 4);
            assertThat(typed.err())
                    .contains("list of a keepsake is passed over: \"" + list + "\": it is damaged")
                    .contains("  \u2192 make it readable again, or delete it")
                    .doesNotContain("\u001b");
        }
        assertThat(Objects.requireNonNull(record().phases().get(0).keepsake()).known())
                .as("the note on the drive serves")
                .isFalse();
    }

    @Test
    void aSimulatedDriveKeepsNothing() {
        Typed typed = type("qualify --simulated steady-stick --session trio-8 --plan line-check --leave-keepsake 1MB");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("keeps nothing");
    }
}
