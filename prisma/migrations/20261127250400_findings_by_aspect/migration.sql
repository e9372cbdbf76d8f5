-- What the owner is asked today goes by aspect and day, over all units.
CREATE INDEX "Finding_aspect_phase_at_idx" ON "Finding"("aspect", "phase", "at");
