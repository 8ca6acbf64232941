package quadrille.facts.practice;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * How a patient reaches the practice, as its file says it; what the file leaves out is null and is
 * left out wherever a patient reads.
 *
 * @param address one line
 * @param phone in opening hours
 * @param email or another way to write
 * @param hours when the practice is open
 * @param outOfHours whom to call when it is closed
 */
public record Contact(
    @Nullable String address,
    @Nullable String phone,
    @Nullable String email,
    @Nullable String hours,
    @Nullable String outOfHours) {

  /** Nothing is known. */
  public static final Contact NONE = new Contact(null, null, null, null, null);

  static final List<String> KEYS = List.of("address", "phone", "email", "hours", "outOfHours");

  /** Whether the practice file says nothing. */
  public boolean isEmpty() {
    return Stream.of(address, phone, email, hours, outOfHours).noneMatch(Objects::nonNull);
  }
}
