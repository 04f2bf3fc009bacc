package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class MountTableTest {

    private static final long SEED = 4711;

    @Test
    void readsTheExampleOfTheManual() {
        // proc(5), proc_pid_mountinfo
        MountTable table =
                MountTable.parse("36 35 98:0 /mnt1 /mnt2 rw,noatime master:1 - ext3 /dev/root rw,errors=continue\n");
        assertThat(table.mounts())
                .containsExactly(
                        new Mount(36, "98:0", "/mnt1", "/mnt2", false, "ext3", "/dev/root", "rw,errors=continue"));
    }

    @Test
    void takesTheLongestPointAndOfTwoOnOneTheLast() {
        MountTable table = MountTable.parse("""
                1 0 8:1 / / rw - ext4 /dev/a rw
                2 1 8:2 / /mnt rw - ext4 /dev/b rw
                3 1 8:3 / /mnt rw - ext4 /dev/c rw
                4 1 8:4 / /mnt/deep rw - ext4 /dev/d rw
                """);
        assertThat(table.of("/mnt/x").map(Mount::id)).contains(3);
        assertThat(table.of("/mnt").map(Mount::id)).contains(3);
        assertThat(table.of("/mntx").map(Mount::id)).contains(1);
        assertThat(table.of("/mnt/deep/er").map(Mount::id)).contains(4);
        assertThat(MountTable.parse("").of("/x")).isEmpty();
    }

    @Test
    void undoesTheKernelsEscapes() {
        assertThat(MountTable.unescape("a\\040b\\011c\\012d\\134e")).isEqualTo("a b\tc\nd\\e");
        assertThat(MountTable.unescape("\\303\\251t\\303\\251")).isEqualTo("été");
        assertThat(MountTable.unescape("\\")).isEqualTo("\\");
        assertThat(MountTable.unescape("\\09x\\8")).isEqualTo("\\09x\\8");
    }

    @Test
    void seesReadOnlyOfMountAndOfFileSystem() {
        assertThat(MountTable.parse("1 0 8:1 / / ro - ext4 /dev/a rw")
                        .mounts()
                        .get(0)
                        .readOnly())
                .isTrue();
        assertThat(MountTable.parse("1 0 8:1 / / rw - ext4 /dev/a ro,errors=x")
                        .mounts()
                        .get(0)
                        .readOnly())
                .isTrue();
        assertThat(MountTable.parse("1 0 8:1 / / rw - ext4 /dev/a rw,errors=remount-ro")
                        .mounts()
                        .get(0)
                        .readOnly())
                .isFalse();
    }

    @Test
    void passesOverWhatHasNotTheForm() {
        System.out.println("seed " + SEED);
        Random random = new Random(SEED);
        String good = "36 35 98:0 /a /b rw,noatime master:1 - ext3 /dev/root rw";
        for (int round = 0; round < 5_000; round++) {
            char[] line = good.toCharArray();
            for (int hit = random.nextInt(6); hit >= 0; hit--) {
                line[random.nextInt(line.length)] = (char) random.nextInt(256);
            }
            String text = new String(line).substring(random.nextInt(8)) + "\n" + good;
            MountTable table = MountTable.parse(text);
            assertThat(table.mounts()).isNotEmpty();
            assertThat(table.mounts().get(table.mounts().size() - 1).point()).isEqualTo("/b");
        }
    }
}
