package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;

/** Reads several files and reports the faults of all of them at once. */
final class Gathering {

  /** Reads one file. */
  interface Reading<T> {
    T read() throws InvalidDocumentException, StopException;
  }

  /** What was read, once {@link Gathering#check()} has found no fault. */
  static final class Read<T> {
    private final @Nullable T value;

    private Read(@Nullable T value) {
      this.value = value;
    }

    /** What a reading that depends on it takes; null where there was a fault. */
    @Nullable T orNull() {
      return value;
    }

    T get() {
      return Objects.requireNonNull(value, "asked for before the check");
    }
  }

  private final List<Fault> faults = new ArrayList<>();

  /** Reads one file now; its faults wait for {@link #check()}. */
  <T> Read<T> read(Reading<T> reading) throws StopException {
    try {
      return new Read<>(reading.read());
    } catch (InvalidDocumentException invalid) {
      faults.addAll(invalid.faults());
      return new Read<>(null);
    }
  }

  /**
   * @throws InvalidDocumentException with every fault of every file, where there is one
   */
  void check() throws InvalidDocumentException {
    if (!faults.isEmpty()) {
      throw new InvalidDocumentException(faults);
    }
  }
}
