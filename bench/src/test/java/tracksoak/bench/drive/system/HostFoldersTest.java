package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

class HostFoldersTest {

    private static final Path HOME = Path.of("/home/crew");

    private static HostFolders of(String os, Map<String, String> environment) {
        return HostFolders.of(os, environment::get, HOME);
    }

    /** Source: XDG Base Directory Specification 0.8, defaults. */
    @Test
    void followsXdgOnLinux() {
        HostFolders folders = of("Linux", Map.of());
        assertThat(folders.sessions()).isEqualTo(Path.of("/home/crew/.config/tracksoak/sessions"));
        assertThat(folders.records()).isEqualTo(Path.of("/home/crew/.local/share/tracksoak/records"));
        assertThat(folders.cache()).isEqualTo(Path.of("/home/crew/.cache/tracksoak"));
        assertThat(folders.state()).isEqualTo(Path.of("/home/crew/.local/state/tracksoak"));
    }

    @Test
    void takesAbsoluteVariablesAndIgnoresRelativeOnes() {
        HostFolders folders =
                of("Linux", Map.of("XDG_DATA_HOME", "/data/crew", "XDG_STATE_HOME", "relative", "XDG_CACHE_HOME", " "));
        assertThat(folders.records()).isEqualTo(Path.of("/data/crew/tracksoak/records"));
        assertThat(folders.state()).isEqualTo(Path.of("/home/crew/.local/state/tracksoak"));
        assertThat(folders.cache()).isEqualTo(Path.of("/home/crew/.cache/tracksoak"));
    }

    @Test
    void usesTheLibraryOnAMac() {
        HostFolders folders = of("Mac OS X", Map.of("XDG_DATA_HOME", "/data/crew"));
        assertThat(folders.records()).isEqualTo(Path.of("/home/crew/Library/Application Support/tracksoak/records"));
        assertThat(folders.cache()).isEqualTo(Path.of("/home/crew/Library/Caches/tracksoak"));
    }

    @Test
    void usesLocalAppDataOnWindows() {
        assertThat(of("Windows 11", Map.of("LOCALAPPDATA", "/c/local")).state())
                .isEqualTo(Path.of("/c/local/tracksoak/state"));
        assertThat(of("Windows 11", Map.of()).sessions())
                .isEqualTo(Path.of("/home/crew/AppData/Local/tracksoak/sessions"));
    }

    @Test
    void namesAbsoluteFoldersHere() {
        HostFolders here = HostFolders.here();
        assertThat(here.state()).isAbsolute();
        assertThat(here.records()).isNotEqualTo(here.sessions());
    }

    @Test
    void aHomeThatIsSetCountsBeforeTheAccounts() {
        assertThat(of("Linux", Map.of("HOME", "/tmp/other")).records())
                .isEqualTo(Path.of("/tmp/other/.local/share/tracksoak/records"));
        assertThat(of("Mac OS X", Map.of("HOME", "/tmp/other")).cache())
                .isEqualTo(Path.of("/tmp/other/Library/Caches/tracksoak"));
        assertThat(of("Linux", Map.of("HOME", "other"))).isEqualTo(of("Linux", Map.of()));
        assertThat(of("Windows 11", Map.of("HOME", "/tmp/other"))).isEqualTo(of("Windows 11", Map.of()));
    }
}
