# The build runs on the builder's own platform and needs Go and Node; the target's
# platform is given to the last step alone.
FROM --platform=$BUILDPLATFORM golang:1.26-bookworm AS build
COPY --from=node:20-bookworm-slim /usr/local/bin/node /usr/local/bin/node
COPY --from=node:20-bookworm-slim /usr/local/lib/node_modules /usr/local/lib/node_modules
RUN ln -s ../lib/node_modules/npm/bin/npm-cli.js /usr/local/bin/npm
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
RUN go run ./cmd/dev gen
ARG TARGETOS TARGETARCH
RUN CGO_ENABLED=0 GOOS=$TARGETOS GOARCH=$TARGETARCH go build -trimpath -ldflags="-s -w" -o /out/trayside ./cmd/trayside
RUN mkdir /out/data

FROM scratch
# Trusted roots for certificates, and time zones for the household's day.
COPY --from=build /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/
COPY --from=build /usr/local/go/lib/time/zoneinfo.zip /zoneinfo.zip
ENV ZONEINFO=/zoneinfo.zip
COPY --from=build /out/trayside /trayside
COPY --from=build --chown=65532:65532 /out/data /data
USER 65532:65532
VOLUME /data
EXPOSE 8080
ENTRYPOINT ["/trayside"]
CMD ["serve", "--data", "/data", "--listen", ":8080"]
