package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.Mark;

class StateTextTest {

    private static final List<String> TEXTS =
            List.of("", "-", "1:", "7:-", "S-014", "\u0000\n\t", "Ωµ\uD83C\uDFA4", "  ");

    private Random random = new Random(0);

    private String text() {
        return TEXTS.get(random.nextInt(TEXTS.size())) + (random.nextBoolean() ? "" : Long.toString(random.nextLong()));
    }

    private @Nullable String maybe() {
        return random.nextInt(3) == 0 ? null : text();
    }

    private @Nullable Long number() {
        return random.nextInt(3) == 0 ? null : (Long) random.nextLong();
    }

    private DriveState state() {
        List<String> tags = new ArrayList<>();
        List<Claim> claims = new ArrayList<>();
        List<Mark> marks = new ArrayList<>();
        for (int i = random.nextInt(4); i > 0; i--) {
            tags.add(text());
            claims.add(new Claim(text(), text(), text(), random.nextLong()));
            marks.add(new Mark(
                    random.nextBoolean(),
                    random.nextLong(),
                    text(),
                    random.nextBoolean(),
                    text(),
                    text(),
                    random.nextLong(),
                    random.nextLong()));
        }
        LastRun last = new LastRun(
                random.nextLong(),
                List.copyOf(EnumSet.allOf(Verdict.Outcome.class)).get(random.nextInt(3)),
                text(),
                text());
        return new DriveState(
                text(),
                random.nextInt(3) == 0 ? null : new DriveIdentity(maybe(), maybe(), maybe(), number()),
                tags,
                claims,
                marks,
                random.nextInt(),
                random.nextInt(),
                random.nextInt(),
                random.nextInt(),
                text(),
                random.nextBoolean() ? null : last);
    }

    @ParameterizedTest
    @ValueSource(longs = {21, 22, 23})
    void whatIsWrittenIsRead(long seed) {
        random = Seeded.random(seed);
        for (int i = 0; i < 500; i++) {
            DriveState state = state();
            assertThat(StateText.read(StateText.write(state))).isEqualTo(state);
        }
    }

    @Test
    void whatWasCutOrIsNoneIsSaidSo() {
        random = new Random(24);
        String whole = StateText.write(state());
        for (int end = 0; end < whole.length(); end++) {
            String cut = whole.substring(0, end);
            assertThatThrownBy(() -> StateText.read(cut)).isInstanceOf(IllegalStateException.class);
        }
        for (String none : List.of("{}", "99999999999:x", "3:abc", "-", "2147483647:", "-----------------------")) {
            assertThatThrownBy(() -> StateText.read(none)).isInstanceOf(IllegalStateException.class);
        }
    }
}
