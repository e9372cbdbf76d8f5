-- Figures that take longer than a page may, worked out in the night, each with the moment it is of.
CREATE TABLE "OwnerFigure" (
    "key" TEXT NOT NULL,
    "at" TIMESTAMPTZ NOT NULL,
    "value" JSONB NOT NULL,
    CONSTRAINT "OwnerFigure_pkey" PRIMARY KEY ("key")
);
