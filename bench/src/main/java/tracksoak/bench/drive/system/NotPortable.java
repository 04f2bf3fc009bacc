package tracksoak.bench.drive.system;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** Marks the only places that may use classes not every JDK has; the build refuses it elsewhere. */
@Retention(RetentionPolicy.CLASS)
@Target({ElementType.TYPE, ElementType.METHOD})
public @interface NotPortable {

    /** Why it is needed, and what happens where it is missing. */
    String value();
}
