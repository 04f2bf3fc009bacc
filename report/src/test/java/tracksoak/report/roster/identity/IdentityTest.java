package tracksoak.report.roster.identity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.Serials;

/** What tells drives apart. Which serials are placeholders: common practice, no source. */
class IdentityTest {

    private static DriveIdentity stick(String serial) {
        return DriveIdentity.of("Barn Works", "Stick 64", serial, 64_000_000_000L);
    }

    @ParameterizedTest
    @NullSource
    @ValueSource(
            strings = {
                "",
                "   ",
                "0",
                "00000000",
                "0000-0000-0000",
                "000000000001",
                "1111111111",
                "FFFFFFFFFFFF",
                "xxxxxxxx",
                "0123456789",
                "0123456789ABCDEF",
                "123456789012",
                "To be filled by O.E.M.",
                "Default string",
                "N/A",
                "unknown",
                "None",
                "SERIAL NUMBER",
                "1234",
                "\u0000\u0000\u0000\u0000\u0000"
            })
    void theseTellNothing(String serial) {
        assertThat(Serials.usable(serial)).isFalse();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "B4RN-0001",
                "QF530001230405117394",
                "AA00000000000489",
                "QX-KXA1A23C4567",
                "07008B2E",
                "0000000000A7"
            })
    void theseTellOneFromAnother(String serial) {
        assertThat(Serials.usable(serial)).isTrue();
    }

    /** Each has fewer than five letters and digits: U+FB03 is one sign, and FFI in upper case. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "\uFB03\uFB04",
                "\uFB031",
                "\u00DF\u00DF1",
                "\u0149\u01F0\uFB0612",
                "\u017F\u0131\u017F\u0131\u017F"
            })
    void lettersThatGrowInUpperCaseAreNotCountedTwice(String serial) {
        assertThat(Serials.usable(serial)).isFalse();
    }

    @Test
    void aSerialOfWhichAPartCannotBeReadTellsNoDriveFromAnother() {
        assertThat(Serials.usable("B4RN-0001")).isTrue();
        assertThat(Serials.usable("B4RN-0001\uFFFD")).isFalse();
    }

    @Test
    void aSerialTooLongIsNone() {
        assertThat(Serials.usable("A1".repeat(65))).isFalse();
    }

    @Test
    void everyPartOfTheHardwareMakesAnotherDrive() {
        DriveIdentity one = stick("B4RN-0001");
        String id = DriveId.of(one, null, "r");
        assertThat(DriveId.isOne(id)).isTrue();
        assertThat(DriveId.of(one, "S-014", "other")).isEqualTo(id);
        assertThat(DriveId.of(stick("B4RN-0002"), null, "r")).isNotEqualTo(id);
        assertThat(DriveId.of(DriveIdentity.of("Barn Works", "Stick 64", "B4RN-0001", 64_000_000_001L), null, "r"))
                .isNotEqualTo(id);
        assertThat(DriveId.of(DriveIdentity.of("Barn", "Works Stick 64", "B4RN-0001", 64_000_000_000L), null, "r"))
                .isNotEqualTo(id);
        assertThat(DriveId.of(DriveIdentity.of(" Barn  Works\t", "Stick 64", "B4RN-0001 ", 64_000_000_000L), null, "r"))
                .isEqualTo(id);
    }

    @Test
    void withoutAUsableSerialTheTagNamesIt() {
        String tagged = DriveId.of(stick("0000"), "S-014", "r1");
        assertThat(DriveId.of(stick("0000"), "S-014", "r2")).isEqualTo(tagged);
        assertThat(DriveId.of(stick("0000"), "S-015", "r2")).isNotEqualTo(tagged);
        String loose = DriveId.of(stick("0000"), null, "r1");
        assertThat(DriveId.isLoose(loose)).isTrue();
        assertThat(DriveId.of(stick("0000"), null, "r2")).isNotEqualTo(loose);
    }

    @ParameterizedTest
    @ValueSource(strings = {"S-014", " s-014 ", "A", "7", "VAN.2_B", "ABCDEFGHIJKLMNOPQRSTUVWX"})
    void theseAreTags(String typed) {
        assertThat(DriveTag.of(typed)).isEqualTo(typed.strip().toUpperCase(java.util.Locale.ROOT));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                " ",
                "-1",
                "S 014",
                "../S",
                "S/1",
                "<b>",
                "Ä1",
                "ABCDEFGHIJKLMNOPQRSTUVWXY",
                "=1",
                "\uFF21",
                // letters that become others, or two, when they are put into upper case
                "\u0131",
                "\u017F-1",
                "\u00DF-1",
                "\uFB01x",
                "\u00E4"
            })
    void theseAreNot(String typed) {
        assertThatThrownBy(() -> DriveTag.of(typed)).isInstanceOf(Problem.class);
    }
}
