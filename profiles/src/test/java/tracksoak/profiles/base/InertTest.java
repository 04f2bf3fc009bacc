package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class InertTest {

    private static final long SEED = 20260101;

    @Test
    void leavesOrdinaryTextAlone() {
        assertThat(Inert.text("Théâtre d'été, 64 Go – øæå 日本 🎙")).isEqualTo("Théâtre d'été, 64 Go – øæå 日本 🎙");
        assertThat(Inert.text("<script>&\"'`</script>"))
                .as("HTML is escaped by the page, not here")
                .isEqualTo("<script>&\"'`</script>");
        assertThat(Inert.text(null)).isEmpty();
    }

    @Test
    void showsWhatWouldSteerATerminal() {
        assertThat(Inert.text("a\u001b[2Jb\u0007\r\nc\u009bd\u007f"))
                .isEqualTo("a[U+001B][2Jb[U+0007][U+000D][U+000A]c[U+009B]d[U+007F]");
    }

    @Test
    void showsWhatTurnsTheDirectionOrHides() {
        assertThat(Inert.text("PASS\u202eLIAF\u2066\u2069")).isEqualTo("PASS[U+202E]LIAF[U+2066][U+2069]");
        assertThat(Inert.text("a\u200bb\ufeffc\u00add\u3164e\ufe0f\u2028"))
                .isEqualTo("a[U+200B]b[U+FEFF]c[U+00AD]d[U+3164]e[U+FE0F][U+2028]");
        assertThat(Inert.text("x" + Character.toString(0xE0041))).isEqualTo("x[U+E0041]");
        assertThat(Inert.text("half \ud83c and \udfa4")).isEqualTo("half [U+D83C] and [U+DFA4]");
    }

    @Test
    void showsSpacesAsSpacesAndStackedAccentsAsNumbers() {
        assertThat(Inert.text("a\u00a0b\u3000c")).isEqualTo("a b c");
        assertThat(Inert.text("e\u0301\u0301\u0301\u0301")).isEqualTo("e\u0301\u0301\u0301[U+0301]");
    }

    @Test
    void boundsItsLength() {
        assertThat(Inert.text("x".repeat(200))).hasSize(200).doesNotContain("…");
        assertThat(Inert.text("x".repeat(201))).hasSize(201).endsWith("x…");
        assertThat(Inert.text("\n".repeat(1_000_000)))
                .hasSizeLessThanOrEqualTo(201)
                .endsWith("]…");
    }

    @Test
    void aWholeSentenceIsMadeHarmlessAndNeverCut() {
        String sentence = "🎙\u001b é".repeat(1_000);
        assertThat(Inert.whole(sentence)).isEqualTo("🎙[U+001B] é".repeat(1_000));
        assertThat(Inert.whole("\u202e".repeat(300))).isEqualTo("[U+202E]".repeat(300));
        assertThat(Inert.quoted("a\nb")).isEqualTo("\"a[U+000A]b\"");
        assertThat(Inert.quoted("x".repeat(300))).hasSize(203).endsWith("…\"");
    }

    @Test
    void keepsTheRawTextTrimmedAndBounded() {
        assertThat(Inert.kept("  ACME  Stick \u0000\u0000\n")).isEqualTo("ACME  Stick");
        assertThat(Inert.kept("a\u202eb\nc")).as("only the ends are touched").isEqualTo("a\u202eb\nc");
        assertThat(Inert.kept(" \t\u00a0\u0000")).isNull();
        assertThat(Inert.kept("")).isNull();
        assertThat(Inert.kept(null)).isNull();
        assertThat(Inert.kept("x".repeat(500))).hasSize(200);
        assertThat(Inert.kept("x".repeat(199) + "🎙")).hasSize(199);
    }

    @Test
    void aWholeSentenceIsNeverCut() {
        assertThat(Inert.whole("x".repeat(1000))).isEqualTo("x".repeat(1000));
        assertThat(Inert.whole("a\u001b[2J" + "é".repeat(300) + "\u202e"))
                .isEqualTo("a[U+001B][2J" + "é".repeat(300) + "[U+202E]");
        assertThat(Inert.whole("🎙".repeat(300) + "\ud83c")).isEqualTo("🎙".repeat(300) + "[U+D83C]");
        assertThat(Inert.whole("")).isEmpty();
    }

    @Test
    void aValueOfASessionFileIsSpelledAsThatFileWouldHoldIt() {
        assertThat(Inert.escaped("a\u001bb\u202ec\n", 80)).isEqualTo("a\\u001Bb\\u202Ec\\u000A");
        assertThat(Inert.escaped("می\u200cخواهم \u200d ő 日本", 80))
                .as("joiners and spaces stay")
                .isEqualTo("می\u200cخواهم \u200d ő 日本");
        assertThat(Inert.escaped("x".repeat(80), 80)).isEqualTo("x".repeat(80));
        assertThat(Inert.escaped("x".repeat(81), 80)).isEqualTo("x".repeat(79) + "…");
        assertThat(Inert.escaped("x".repeat(78) + "🎙🎙", 80)).isEqualTo("x".repeat(78) + "…");
        assertThat(Inert.escaped("\n".repeat(1_000_000), 40)).hasSizeLessThanOrEqualTo(40);
        assertThat(Inert.mustBeEscaped(0x202E)).isTrue();
        assertThat(Inert.mustBeEscaped(0x200D)).isFalse();
    }

    @Test
    void whateverComesTheTextIsOneBoundedLineThatShows() {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        for (int round = 0; round < 2_000; round++) {
            StringBuilder raw = new StringBuilder();
            int length = random.nextInt(300);
            for (int i = 0; i < length; i++) {
                raw.append(
                        random.nextBoolean()
                                ? (char) random.nextInt(0x300)
                                : (char) random.nextInt(Character.MAX_VALUE + 1));
            }
            String shown = Inert.text(raw.toString());
            assertThat(shown.length()).isLessThanOrEqualTo(Inert.LONGEST + 1);
            assertThat(shown.codePoints())
                    .allMatch(point -> !Character.isISOControl(point)
                            && Character.getType(point) != Character.FORMAT
                            && Character.getType(point) != Character.SURROGATE
                            && Character.getType(point) != Character.LINE_SEPARATOR
                            && Character.getType(point) != Character.PARAGRAPH_SEPARATOR
                            && Character.isDefined(point));
            assertThat(Inert.text(shown.replace("…", "")))
                    .as("already shown text stays as it is")
                    .isEqualTo(shown.replace("…", ""));
            String kept = Inert.kept(raw.toString());
            assertThat(kept == null || kept.length() <= Inert.LONGEST).isTrue();
        }
    }
}
