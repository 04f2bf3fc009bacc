package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionOverrides;

class OptionNamesTest {

    /** Every value that can be out of range, so: whatever the profile room calls it, the message names the option. */
    @Test
    void everyValueGivenAsAnOptionIsBlamedOnThatOption() {
        List<ProfileError> errors = wrong(SessionOverrides.builder()
                .tracks(0)
                .sampleRateHz(1)
                .lengthS(0L)
                .chunkBytes(1L)
                .writers(0)
                .flushS(-1.0)
                .bufferS(0.0)
                .fileLimitBytes(1L)
                .stallLimitMs(0L)
                .marginBuffer(0.5)
                .marginRate(0.5)
                .marginPort(0.5)
                .marginPlayback(0.5)
                .longestStallMs(0L)
                .closeMs(0L)
                .build());
        assertThat(errors).hasSizeGreaterThanOrEqualTo(15);
        List<String> known = optionsOfASession();
        assertThat(errors).allSatisfy(error -> {
            assertThat(known).as(error.sentence()).contains(OptionNames.of(error.key()));
            assertThat(OptionNames.remedy(error)).doesNotContain("[0]", "write for example");
        });
    }

    private static List<String> optionsOfASession() {
        return new CommandLine(CommandLine.Model.CommandSpec.forAnnotatedObject(new SessionOptions()))
                .getCommandSpec().options().stream()
                        .flatMap(option -> Arrays.stream(option.names()))
                        .toList();
    }

    private static List<ProfileError> wrong(SessionOverrides overrides) {
        Session session = SessionCatalog.shipped().find("band-32");
        ProfileException refused = catchThrowableOfType(ProfileException.class, () -> overrides.applyTo(session));
        return refused.errors();
    }
}
