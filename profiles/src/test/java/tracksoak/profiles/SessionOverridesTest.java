package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import org.junit.jupiter.api.Test;

class SessionOverridesTest {
    private final Session trio = SessionCatalog.shipped().find("trio-8");

    @Test
    void changesNothingWhereNothingIsGiven() {
        assertThat(SessionOverrides.none().applyTo(trio)).isSameAs(trio);
        assertThat(SessionOverrides.none().with(Key.COUNT, 8).applyTo(trio)).isSameAs(trio);
    }

    /** Such as that of the demo, which takes whatever file system the computer has. */
    @Test
    void aSessionThatNoFileCouldHoldStaysAsItIs() {
        Session any = trio.but().name("any").title("Any").fileSystems(List.of()).build();
        assertThat(SessionOverrides.none().applyTo(any)).isSameAs(any);
    }

    /** "8 tracks of a small act" would be untrue of it. */
    @Test
    void theTitleSaysWhatItIsNow() {
        Session changed = SessionOverrides.none().with(Key.COUNT, 1).applyTo(trio);
        assertThat(changed.title()).isEqualTo("1 track at 48 kHz 24-bit, 3 h (trio-8 changed)");
        Session again = SessionOverrides.none()
                .with(Key.COUNT, 20)
                .with(Key.SAMPLE_RATE, 44_100)
                .with(Key.LENGTH, 5_400L)
                .applyTo(changed);
        assertThat(again.title()).isEqualTo("20 tracks at 44.1 kHz 24-bit, 1 h 30 min (trio-8 changed)");
        Session pair = SessionCatalog.shipped().find("two-rates");
        assertThat(SessionOverrides.none().with(Key.FLUSH, 5.0).applyTo(pair).title())
                .contains("32 tracks at 48 kHz", " and ", "2 tracks at 96 kHz", "(two-rates changed)");
    }

    @Test
    void putsEveryValueInItsPlace() {
        Session changed = SessionOverrides.none()
                .with(Key.COUNT, 12)
                .with(Key.SAMPLE_RATE, 96_000)
                .with(Key.WORD_LENGTH, SampleFormat.FLOAT_32)
                .with(Key.LENGTH, 90L)
                .with(Key.LAYOUT, FileLayout.INTERLEAVED)
                .with(Key.CHUNK, 131_072L)
                .with(Key.ARRIVAL, Arrival.STAGGERED)
                .with(Key.WRITERS, 1)
                .with(Key.FLUSH, 5.0)
                .with(Key.BUFFER, 0.5)
                .with(Key.FILE_LIMIT, 2_147_483_647L)
                .with(Key.FILE_SYSTEMS, List.of("ext4"))
                .with(Key.STALL_LIMIT, 100L)
                .with(Key.MARGIN_BUFFER, 2.0)
                .with(Key.MARGIN_RATE, 3.0)
                .with(Key.MARGIN_PORT, 4.0)
                .with(Key.MARGIN_PLAYBACK, 5.0)
                .with(Key.LONGEST_STALL, 400L)
                .with(Key.CLOSE, 9_000L)
                .applyTo(trio);

        assertThat(changed.groups()).containsExactly(new TrackGroup(12, 96_000, SampleFormat.FLOAT_32));
        assertThat(changed.margins()).isEqualTo(new Margins(2, 3, 4, 5, 400, 9_000));
        assertThat(changed)
                .returns(90L, Session::lengthS)
                .returns(FileLayout.INTERLEAVED, Session::layout)
                .returns(131_072, Session::chunkBytes)
                .returns(Arrival.STAGGERED, Session::arrival)
                .returns(5.0, Session::flushS)
                .returns(0.5, Session::bufferS)
                .returns(2_147_483_647L, Session::fileLimitBytes)
                .returns(List.of("ext4"), Session::fileSystems)
                .returns(100L, Session::stallLimitMs);
        assertThat(SessionReader.read(SessionToml.write(changed), "changed")).isEqualTo(changed);
    }

    @Test
    void givesTheChangedSessionANameOfItsOwnAndSaysWhatDiffers() {
        Session changed = SessionOverrides.none().with(Key.COUNT, 4).applyTo(trio);
        assertThat(changed.name()).isEqualTo("trio-8-changed");
        assertThat(changed.about())
                .startsWith("Changed from trio-8: tracks 4 at 48000 Hz 24-bit instead of 8 at 48000 Hz 24-bit.");
        assertThat(SessionOverrides.none().with(Key.COUNT, 2).applyTo(changed).name())
                .isEqualTo("trio-8-changed");
    }

    @Test
    void keepsAVeryLongNameWithinTheLimit() {
        Session named = OverrideDraft.named(trio, "a".repeat(39) + "-" + "b".repeat(8), "Ours", "");
        Session changed = SessionOverrides.none().with(Key.COUNT, 4).applyTo(named);
        assertThat(changed.name()).isEqualTo("a".repeat(39) + "-changed");
    }

    @Test
    void takesAGivenBufferAsKnown() {
        assertThat(trio.bufferAssumed()).isTrue();
        assertThat(SessionOverrides.none().with(Key.BUFFER, 4.0).applyTo(trio).bufferAssumed())
                .isFalse();
        assertThat(SessionOverrides.none().with(Key.COUNT, 4).applyTo(trio).bufferAssumed())
                .isTrue();
    }

    @Test
    void listsEveryBadOptionAtOnceUnderItsValue() {
        ProfileException thrown = catchThrowableOfType(
                ProfileException.class,
                () -> SessionOverrides.none()
                        .with(Key.COUNT, 2000)
                        .with(Key.CHUNK, 5_000L)
                        .with(Key.FLUSH, Double.NaN)
                        .with(Key.FILE_SYSTEMS, List.of("exfta"))
                        .with(Key.MARGIN_RATE, 0.5)
                        .applyTo(trio));

        assertThat(thrown.errors()).allMatch(e -> e.file().equals("option"));
        assertThat(thrown.errors())
                .extracting(e -> e.key() + " = " + e.value())
                .containsExactlyInAnyOrder(
                        "tracks[0].count = 2000",
                        "chunk = 5000",
                        "flush_s = NaN",
                        "file_systems = [exfta]",
                        "margins.rate = 0.5");
    }

    @Test
    void blamesTheOptionWhereItContradictsTheProfile() {
        assertThatThrownBy(() -> SessionOverrides.none().with(Key.BUFFER, 0.5).applyTo(trio))
                .hasMessageContaining("option: buffer_s = 0.5: chunk 65536 B")
                .hasMessageContaining("0.455 s > half of buffer_s 0.5");
        assertThatThrownBy(() ->
                        SessionOverrides.none().with(Key.SAMPLE_RATE, 8_000).applyTo(trio))
                .hasMessageContaining("option: tracks[0].sample_rate_hz = 8000: chunk 65536 B");
    }

    @Test
    void refusesATrackCountForASessionWithSeveralGroups() {
        Session twoRates = SessionCatalog.shipped().find("two-rates");
        assertThatThrownBy(() -> SessionOverrides.none().with(Key.COUNT, 4).applyTo(twoRates))
                .hasMessageContaining("cannot say which of the session's 2 groups");
    }
}
