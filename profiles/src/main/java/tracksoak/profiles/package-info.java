/** What a session needs: session profiles, their reader, and the demand arithmetic. Depends on no other room. */
@NullMarked
package tracksoak.profiles;

import org.jspecify.annotations.NullMarked;
