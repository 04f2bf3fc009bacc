package tracksoak.bench.recorder.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.Method;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.bench.drive.io.Drive;

class WatchedDriveTest {

    static Stream<Method> callsThatMayHang() {
        return Arrays.stream(Drive.class.getDeclaredMethods())
                .filter(method -> Arrays.asList(method.getExceptionTypes()).contains(IOException.class)
                        || method.getName().equals("forgetCached"));
    }

    /** What it inherits would reach the drive unwatched. */
    @ParameterizedTest
    @MethodSource("callsThatMayHang")
    void watchesEveryCallThatMayHang(Method call) throws NoSuchMethodException {
        assertThat(WatchedDrive.class
                        .getMethod(call.getName(), call.getParameterTypes())
                        .getDeclaringClass())
                .isEqualTo(WatchedDrive.class);
    }
}
