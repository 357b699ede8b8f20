package snick.store.record;

import java.util.Optional;

/**
 * A recording in the store.
 *
 * @param id its id
 * @param recording what was known when it began
 * @param clock how its device clock lies on the host's, once known
 */
public record StoredRecording(long id, Recording recording, Optional<HostClock> clock) {}
