package quadrille.diary.file;

/** The diary on disk is no longer the one that was read; nothing has been written. */
public final class ChangedDiaryException extends Exception {
  private static final long serialVersionUID = 1L;

  /**
   * @param file as the user named it
   */
  public ChangedDiaryException(String file) {
    super(file + " has been changed since it was read; nothing was written.");
  }
}
