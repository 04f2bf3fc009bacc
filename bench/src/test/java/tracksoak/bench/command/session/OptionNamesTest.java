package tracksoak.bench.command.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine.Model.CommandSpec;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionOverrides;

class OptionNamesTest {

    /** Every value that can be out of range, so: whatever the profile room calls it, the message names the option. */
    @Test
    void everyValueGivenAsAnOptionIsBlamedOnThatOption() {
        List<ProfileError> errors = wrong(SessionOverrides.none()
                .with(Key.COUNT, 0)
                .with(Key.SAMPLE_RATE, 1)
                .with(Key.LENGTH, 0L)
                .with(Key.CHUNK, 1L)
                .with(Key.WRITERS, 0)
                .with(Key.FLUSH, -1.0)
                .with(Key.BUFFER, 0.0)
                .with(Key.FILE_LIMIT, 1L)
                .with(Key.STALL_LIMIT, 0L)
                .with(Key.MARGIN_BUFFER, 0.5)
                .with(Key.MARGIN_RATE, 0.5)
                .with(Key.MARGIN_PORT, 0.5)
                .with(Key.MARGIN_PLAYBACK, 0.5)
                .with(Key.LONGEST_STALL, -1L)
                .with(Key.RISK, 0.0)
                .with(Key.HEADER, -1.0)
                .with(Key.CLOSE, 0L));
        assertThat(errors).hasSizeGreaterThanOrEqualTo(15);
        List<String> known = optionsOfASession();
        assertThat(errors).allSatisfy(error -> {
            assertThat(known).as(error.sentence()).contains(OptionNames.of(error.key()));
            assertThat(OptionNames.remedy(error)).doesNotContain("[0]", "write for example");
        });
    }

    private static List<String> optionsOfASession() {
        CommandSpec command = CommandSpec.create();
        new SessionOptions("Values").addTo(command);
        return command.options().stream()
                .flatMap(option -> Arrays.stream(option.names()))
                .toList();
    }

    private static List<ProfileError> wrong(SessionOverrides overrides) {
        Session session = SessionCatalog.shipped().find("band-32");
        ProfileException refused = catchThrowableOfType(ProfileException.class, () -> overrides.applyTo(session));
        return refused.errors();
    }
}
