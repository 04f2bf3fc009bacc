package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.bench.drive.CapturedFiles;
import tracksoak.report.record.facts.HostFacts;

class HostProbeTest {

    @Test
    void readsProcessorMemoryAndSystem() {
        CapturedFiles files = new CapturedFiles()
                .text(
                        "/proc/cpuinfo",
                        "processor\t: 0\nvendor_id\t: Invented\nmodel name\t: Wren 8 @ 2.10GHz\nflags\t: a\n")
                .text("/proc/meminfo", "MemTotal:       24684084 kB\nMemFree:         1 kB\n")
                .text("/etc/os-release", "NAME=\"X\"\nPRETTY_NAME=\"Stage Linux 12\"\nID=x\n");
        HostFacts host = HostProbe.host(files);
        assertThat(host.cpu()).isEqualTo("Wren 8 @ 2.10GHz");
        assertThat(host.memoryBytes()).isEqualTo(24684084L * 1024);
        assertThat(host.os()).startsWith("Stage Linux 12 (");
        assertThat(host.arch()).isEqualTo(System.getProperty("os.arch"));
        assertThat(host.cores()).isEqualTo(Runtime.getRuntime().availableProcessors());
        assertThat(host.java()).startsWith(System.getProperty("java.version"));
    }

    @Test
    void saysNothingWhereTheTextsDoNot() {
        assertThat(HostProbe.cpu(null)).isNull();
        assertThat(HostProbe.cpu("processor : 0\nBogoMIPS : 48\n")).isNull();
        assertThat(HostProbe.cpu("Model\t\t: Small Board 4\n")).isEqualTo("Small Board 4");
        assertThat(HostProbe.memoryBytes("MemTotal: lots kB")).isNull();
        assertThat(HostProbe.memoryBytes("MemTotal: 99999999999999999999 kB")).isNull();
        assertThat(HostProbe.system(null, "Linux 6.1")).isEqualTo("Linux 6.1");
        assertThat(HostProbe.system("PRETTY_NAME=\"\"\n", "Linux 6.1")).isEqualTo("Linux 6.1");
    }

    @Test
    void knowsThisComputer() {
        HostFacts host = HostProbe.host();
        assertThat(host.os()).isNotBlank();
        assertThat(host.cores()).isPositive();
    }
}
