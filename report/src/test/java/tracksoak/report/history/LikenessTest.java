package tracksoak.report.history;

import static org.assertj.core.api.Assertions.assertThat;

import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.facts.DriveFacts;

class LikenessTest {

    private static DriveFacts drive(
            @Nullable String maker, @Nullable String model, @Nullable String serial, long size) {
        return DriveFacts.builder()
                .rotational(false)
                .system(false)
                .maker(maker)
                .model(model)
                .serial(serial)
                .sizeBytes(size)
                .bus("usb")
                .linkMbps(5000.0)
                .removable(true)
                .node("sdx")
                .mount("/m")
                .fileSystem("exfat")
                .fileSystemBytes(size)
                .freeBytes(size)
                .clusterBytes(4096L)
                .build();
    }

    @Test
    void aSerialNumberIsSure() {
        Likeness found = Likeness.of(
                        drive("Barley", "Wagon ", "A1B2C", 64), null, drive("barley", "Wagon", "a1b2c", 64), null)
                .orElseThrow();
        assertThat(found.sentence()).startsWith("by maker, model and serial number");
        assertThat(found.sure()).isTrue();
        assertThat(Likeness.of(drive("Barley", "Wagon", "A1B2C", 64), "7", drive("Barley", "Wagon", "A1B3C", 64), "7"))
                .isEmpty();
        assertThat(Likeness.of(drive("Barley", "Wagon", "A1B2C", 64), null, drive("Oak", "Wagon", "A1B2C", 64), null))
                .isEmpty();
    }

    @Test
    void anotherSizeIsSaid() {
        Likeness found = Likeness.of(
                        drive("Barley", "Wagon", "A1B2C", 64), null, drive("Barley", "Wagon", "A1B2C", 128), null)
                .orElseThrow();
        assertThat(found.sure()).isFalse();
        assertThat(found.sentence()).contains("its size is another");
    }

    @Test
    void withoutASerialNumberTheTagCountsAndElseTheKindWithAWarning() {
        DriveFacts plain = drive("Barley", "Wagon", "000000000000", 64);
        assertThat(Likeness.of(plain, "7", plain, "7").orElseThrow().sentence()).startsWith("by the tag 7");
        assertThat(Likeness.of(plain, "7", plain, "8")).isEmpty();
        Likeness kind = Likeness.of(plain, "7", plain, null).orElseThrow();
        assertThat(kind.sure()).isFalse();
        assertThat(kind.sentence()).contains("any other drive of the same kind would match as well");
        assertThat(Likeness.of(plain, null, drive("Barley", "Wagon", null, 65), null))
                .isEmpty();
        DriveFacts nameless = drive(null, null, null, 64);
        assertThat(Likeness.of(nameless, null, nameless, null)).isEmpty();
        assertThat(Likeness.of(nameless, "7", nameless, "7")).isPresent();
    }
}
