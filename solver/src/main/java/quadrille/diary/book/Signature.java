package quadrille.diary.book;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Who changes something in a diary, when and why.
 *
 * @param by as they are called here
 * @param at the moment, by the clock of whoever asks
 * @param because null where nobody said so
 * @param note a few words; null for none
 */
public record Signature(String by, Instant at, @Nullable Why because, @Nullable String note) {

  /** The most characters of a name and of a note. */
  public static final int LONGEST = 200;

  /** Without a reason. */
  public Signature(String by, Instant at) {
    this(by, at, null, null);
  }
}
