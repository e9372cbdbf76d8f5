-- In a small shop the owner drives, too: who is not a technician can be booked and planned for where that is said.
ALTER TABLE "User" ADD COLUMN "alsoVisits" BOOLEAN NOT NULL DEFAULT false;
