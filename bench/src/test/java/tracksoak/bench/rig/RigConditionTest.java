package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class RigConditionTest {

    @Test
    void findsWhatIsInstalledAndNothingElse() {
        assertThat(RigCondition.find("a-command-that-is-nowhere")).isEmpty();
        // every system the tests run on has a shell of one of these names
        assertThat(RigCondition.find("sh").or(() -> RigCondition.find("cmd.exe")))
                .isPresent();
    }

    @Test
    void skipsWithTheReason() {
        var result = RigCondition.decide(List.of("command nbdkit", "/dev/fuse"), false);

        assertThat(result.isDisabled()).isTrue();
        assertThat(result.getReason()).contains("not on this machine: command nbdkit, /dev/fuse");
        assertThat(RigCondition.decide(List.of(), false).isDisabled()).isFalse();
    }

    @Test
    void isAFailureWhereTheRigIsRequired() {
        assertThatThrownBy(() -> RigCondition.decide(List.of("command nbdkit"), true))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("command nbdkit");
        assertThat(RigCondition.decide(List.of(), true).isDisabled()).isFalse();
    }
}
