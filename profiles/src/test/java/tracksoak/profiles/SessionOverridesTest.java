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
        assertThat(SessionOverrides.builder().tracks(8).build().applyTo(trio)).isSameAs(trio);
    }

    /** Such as that of the demo, which takes whatever file system the computer has. */
    @Test
    void aSessionThatNoFileCouldHoldStaysAsItIs() {
        Session any = new Session(
                "any",
                "Any",
                "",
                trio.kind(),
                trio.groups(),
                List.of(),
                60,
                trio.layout(),
                trio.chunkBytes(),
                trio.arrival(),
                1,
                10,
                2,
                true,
                trio.fileLimitBytes(),
                List.of(),
                250,
                90,
                trio.margins());
        assertThat(SessionOverrides.none().applyTo(any)).isSameAs(any);
    }

    /** "8 tracks of a small act" would be untrue of it. */
    @Test
    void theTitleSaysWhatItIsNow() {
        Session changed = SessionOverrides.builder().tracks(1).build().applyTo(trio);
        assertThat(changed.title()).isEqualTo("1 track at 48 kHz 24-bit, 3 h (trio-8 changed)");
        Session again = SessionOverrides.builder()
                .tracks(20)
                .sampleRateHz(44_100)
                .lengthS(5_400L)
                .build()
                .applyTo(changed);
        assertThat(again.title()).isEqualTo("20 tracks at 44.1 kHz 24-bit, 1 h 30 min (trio-8 changed)");
        Session pair = SessionCatalog.shipped().find("two-rates");
        assertThat(SessionOverrides.builder().flushS(5.0).build().applyTo(pair).title())
                .contains("32 tracks at 48 kHz", " and ", "2 tracks at 96 kHz", "(two-rates changed)");
    }

    @Test
    void putsEveryValueInItsPlace() {
        Session changed = SessionOverrides.builder()
                .tracks(12)
                .sampleRateHz(96_000)
                .format(SampleFormat.FLOAT_32)
                .lengthS(90L)
                .layout(FileLayout.INTERLEAVED)
                .chunkBytes(131_072L)
                .arrival(Arrival.STAGGERED)
                .writers(1)
                .flushS(5.0)
                .bufferS(0.5)
                .fileLimitBytes(2_147_483_647L)
                .fileSystems(List.of("ext4"))
                .stallLimitMs(100L)
                .marginBuffer(2.0)
                .marginRate(3.0)
                .marginPort(4.0)
                .marginPlayback(5.0)
                .longestStallMs(400L)
                .closeMs(9_000L)
                .build()
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
        Session changed = SessionOverrides.builder().tracks(4).build().applyTo(trio);
        assertThat(changed.name()).isEqualTo("trio-8-changed");
        assertThat(changed.about())
                .startsWith("Changed from trio-8: tracks 4 at 48000 Hz 24-bit instead of 8 at 48000 Hz 24-bit.");
        assertThat(SessionOverrides.builder().tracks(2).build().applyTo(changed).name())
                .isEqualTo("trio-8-changed");
    }

    @Test
    void keepsAVeryLongNameWithinTheLimit() {
        Session named = OverrideDraft.named(trio, "a".repeat(39) + "-" + "b".repeat(8), "Ours", "");
        Session changed = SessionOverrides.builder().tracks(4).build().applyTo(named);
        assertThat(changed.name()).isEqualTo("a".repeat(39) + "-changed");
    }

    @Test
    void takesAGivenBufferAsKnown() {
        assertThat(trio.bufferAssumed()).isTrue();
        assertThat(SessionOverrides.builder().bufferS(4.0).build().applyTo(trio).bufferAssumed())
                .isFalse();
        assertThat(SessionOverrides.builder().tracks(4).build().applyTo(trio).bufferAssumed())
                .isTrue();
    }

    @Test
    void listsEveryBadOptionAtOnceUnderItsValue() {
        ProfileException thrown = catchThrowableOfType(
                ProfileException.class,
                () -> SessionOverrides.builder()
                        .tracks(2000)
                        .chunkBytes(5_000L)
                        .flushS(Double.NaN)
                        .fileSystems(List.of("exfta"))
                        .marginRate(0.5)
                        .build()
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
        assertThatThrownBy(() -> SessionOverrides.builder().bufferS(0.5).build().applyTo(trio))
                .hasMessageContaining("option: buffer_s = 0.5: chunk 65536 B")
                .hasMessageContaining("0.455 s > half of buffer_s 0.5");
        assertThatThrownBy(() ->
                        SessionOverrides.builder().sampleRateHz(8_000).build().applyTo(trio))
                .hasMessageContaining("option: tracks[0].sample_rate_hz = 8000: chunk 65536 B");
    }

    @Test
    void refusesATrackCountForASessionWithSeveralGroups() {
        Session twoRates = SessionCatalog.shipped().find("two-rates");
        assertThatThrownBy(() -> SessionOverrides.builder().tracks(4).build().applyTo(twoRates))
                .hasMessageContaining("cannot say which of the session's 2 groups");
    }
}
