package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.rig.Cgroups.V1;
import static tracksoak.bench.rig.Cgroups.V2;

import org.junit.jupiter.api.Test;

/** Texts in the shape of proc_pid_cgroup(5) and cgroups(7). */
class CgroupsTest {

    private static final String HYBRID = """
            12:pids:/user.slice/session-2.scope
            7:net_cls,net_prio:/
            5:cpu,cpuacct:/user.slice
            4:blkio:/user.slice/stage
            1:name=systemd:/user.slice/session-2.scope
            0::/user.slice/session-2.scope
            """;

    @Test
    void eachKindHasItsOwnLine() {
        assertThat(V1.groupIn(HYBRID)).isEqualTo("user.slice/stage");
        assertThat(V2.groupIn(HYBRID)).isEqualTo("user.slice/session-2.scope");
    }

    @Test
    void aControllerMayShareItsTree() {
        assertThat(V1.groupIn("3:memory,blkio:/a")).isEqualTo("a");
    }

    @Test
    void aControllerWhoseNameOnlyLooksLikeItIsNotIt() {
        assertThat(V1.groupIn("3:blkiostat:/a\n4:name=blkio:/b")).isEmpty();
    }

    @Test
    void theRootIsEmpty() {
        assertThat(V2.groupIn("0::/\n")).isEmpty();
        assertThat(V1.groupIn("2:blkio:/")).isEmpty();
    }

    @Test
    void aPathMayHoldColons() {
        assertThat(V2.groupIn("0::/unit:of:a:container")).isEqualTo("unit:of:a:container");
    }

    @Test
    void aTextThatDoesNotSayMeansTheRoot() {
        assertThat(V1.groupIn("0::/user.slice")).isEmpty();
        assertThat(V2.groupIn("4:blkio:/user.slice")).isEmpty();
        assertThat(V2.groupIn("")).isEmpty();
        assertThat(V2.groupIn("0:\n0::\n0::no/slash")).isEmpty();
    }

    @Test
    void theFirstKindGoesFirstAndTheSecondNeedsItsController() {
        assertThat(Cgroups.usable(true, "", false)).contains(V1);
        assertThat(Cgroups.usable(true, "cpu io", true)).contains(V1);
        assertThat(Cgroups.usable(false, "cpuset cpu io memory", true)).contains(V2);
        assertThat(Cgroups.usable(false, "cpuset cpu io memory", false)).isEmpty();
        assertThat(Cgroups.usable(false, "cpuset cpu iocost memory", true)).isEmpty();
        assertThat(Cgroups.usable(false, "", true)).isEmpty();
    }
}
